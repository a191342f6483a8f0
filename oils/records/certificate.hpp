#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/chemistry/alkali.hpp"
#include "core/units/error.hpp"
#include "oils/records/library.hpp"
#include "oils/records/oil.hpp"

namespace barwright::oils {

/// What a supplier's certificate of analysis says of one lot. What it does not say stays empty.
struct Certificate {
  std::string reference;                       ///< number or date, as the supplier writes it
  std::optional<double> saponification_value;  ///< mg KOH per g
  std::optional<double> iodine_value;          ///< g I2 per 100 g
  std::optional<double> unsaponifiable;        ///< % of the fat by mass
  /// % of total fatty acids; all empty when the certificate lists none.
  std::array<std::optional<double>, core::kFattyAcidCount> acids;
  std::string confirmed;  ///< the maker's reason for a figure that is doubted; may be empty
  core::Place place;

  bool has_acids() const;
  /// Returns the sum of the listed acids, %.
  double acid_sum() const;
};

/// mg KOH for the same moles as 1 mg NaOH: molar masses, IUPAC 2021 abridged.
inline constexpr double kKohPerNaoh = core::kKohMolarMass / core::kNaohMolarMass;

/// One thing to know of a certificate or a record, in the maker's words.
struct Finding {
  enum class Weight {
    note,      ///< good to know
    question,  ///< to put to the supplier before the figure is trusted
    fault,     ///< cannot be used as it stands
  } weight = Weight::note;
  std::string text;
  std::string remedy;
  core::Place place;
};

/// A list of acids may leave out traces: within this of 100 % it is scaled up and used.
inline constexpr double kCertificateAcidSlack = 2.0;  // % of the fatty acids, judgement

/// Returns the oil with the certificate's figures in the place of the library's, marked so. Where
/// acids but no saponification value are certified, its typical value follows the acids and its
/// range stays published (stretched to take it in). Errors: std::invalid_argument when listed acids
/// do not sum to 100 +- 2 %.
Oil certified(const Oil& oil, const Certificate& certificate);

/// Returns what is to be questioned: figures over 2 % away from those its own acids give, figures
/// outside the range published for `like`, acids that do not sum to 100, figures not given. With
/// `like` null nothing published is compared.
std::vector<Finding> question(const Certificate& certificate, Form form, const Oil* like);

/// Returns what speaks against letting this certificate decide the lye of a lot of `like` (null: of
/// an oil nothing is published of): its saponification value, or the one its acids give, outside
/// the published range widened by its own doubt (2 % of typical and 0.5 % of the test), or a figure
/// over 2 % away from its own acids. Empty: it may. The texts are for an error or a note.
std::vector<Finding> lye_doubts(const Certificate& certificate, Form form, const Oil* like);

/// Returns what to say beside a recipe of figures that are doubted and confirmed; empty where
/// nothing is doubted. `what` names the lot or record. Errors: InputError at `block` for a doubted
/// figure that is not confirmed, and for a confirmation where nothing is doubted.
std::string confirmation(const Certificate& certificate, Form form, const Oil* like,
                         const std::string& what, const yaml::Node& block);

struct Record;

/// A maker's own record, checked.
struct RecordReport {
  Oil oil;                        ///< as far as the record goes
  std::string like;               ///< the library oil it was compared with; may be empty
  Certificate certificate;        ///< its typical figures
  bool whole = false;             ///< it holds all that --library asks of a record
  std::vector<Finding> findings;  ///< faults first, then questions, then notes
};

}  // namespace barwright::oils
