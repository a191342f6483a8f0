#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "solver/tune/dice.hpp"
#include "solver/tune/hands.hpp"
#include "targets/files/notes.hpp"
#include "targets/model/model.hpp"

namespace barwright::tune {

/// One bar beside another, by one property, as their recipes alone make them: the pour's own luck
/// left out, hardness after the usual cure.
struct Asked {
  targets::Property property = targets::Property::hardness;
  std::size_t bar = 0, against = 0;  ///< places among the distinct bars
};

/// One line of a maker's notes that says one thing.
struct Saying {
  core::Place place;
  std::string words;  ///< as written
  std::vector<std::size_t> pours;
};

/// A bar as the model sees it.
struct DistinctBar {
  std::string name;  ///< of its recipe, or of its first pour
  targets::Composition composition;
  targets::BarSettings settings;
};

/// A maker's notes as a law over what is not known: constants within their spreads, what single
/// oils do besides, what a pour did, and how hands and means are read. Every unknown is a normal
/// number beforehand (latent.hpp). Everything that notes say no more of than print is left as print
/// has it.
class NotesModel {
 public:
  NotesModel(targets::MakerNotes notes, const oils::Library& library,
             const targets::PropertyModel& print);

  /// Returns how many unknowns there are, and the log likelihood of all notes at a state of them.
  std::size_t size() const { return size_; }
  /// `worked`: where what the constants alone decide is kept from call to call, one per run.
  struct Worked {
    struct OfLook {
      bool rising = true;
      double half = 0;            // what the inner part is divided by
      std::vector<double> alone;  // inner part of each oil
      std::vector<double> inner;  // of each sight's bar by its acids
    };
    std::vector<double> key;
    targets::ConstantValues constants;
    std::vector<OfLook> looks;
  };
  double log_likelihood(std::span<const double> z, Worked& worked) const;
  double log_likelihood(std::span<const double> z) const;
  /// Returns that of each saying by itself; they add up to the whole.
  std::vector<double> by_saying(std::span<const double> z) const;
  /// Returns what each saying speaks of at a state: a difference in steps, or a figure's logarithm.
  std::vector<double> predictors(std::span<const double> z) const;
  /// Returns log likelihood of one saying if its predictor were `predictor`.
  double saying_at(std::size_t saying, double predictor, std::span<const double> z) const;
  /// Returns how surely each saying is a slip of the pen or a stray figure at a state, 0..1.
  std::vector<double> strays(std::span<const double> z) const;

  const std::vector<Saying>& sayings() const { return sayings_; }
  const targets::MakerNotes& notes() const { return notes_; }
  const std::vector<DistinctBar>& bars() const { return bars_; }
  std::size_t bar_of(std::size_t pour) const { return bar_of_[pour]; }
  const std::vector<targets::Property>& properties() const { return properties_; }
  const std::vector<const oils::Oil*>& oils() const { return oils_; }
  /// Returns every comparison the notes touch: each bar beside the one most often spoken of.
  const std::vector<Asked>& asked() const { return asked_; }

  /// Returns the constants at a state; what the oils of the notes do besides, in steps (one row per
  /// oil); the scale of such steps per property.
  targets::ConstantValues constants(std::span<const double> z) const;
  double offset(std::span<const double> z, std::size_t oil, targets::Property property) const;
  double offset_scale(std::span<const double> z, targets::Property property) const;
  /// Returns what a pour did by itself, in steps.
  double pour_effect(std::span<const double> z, std::size_t pour, targets::Property property) const;
  /// Returns the difference asked, in points, at a state.
  std::vector<double> differences(std::span<const double> z) const;
  /// Returns the whole model of a state, with the oils' own offsets.
  targets::PropertyModel model(std::span<const double> z) const;

  /// Returns the same notes as they would be told if the state were the truth.
  targets::MakerNotes simulated(std::span<const double> z, Dice& dice) const;
  /// Draws the scales of offsets and of pours' luck anew while what they scale stays as it is: the
  /// likelihood does not move, and neither does what the draws are drawn from.
  void rescale(std::vector<double>& z, Dice& dice) const;
  /// Returns the unknowns of hands, means and scales: few, and bent.
  std::vector<std::size_t> readers() const;
  /// Returns the unknowns that are not constants: cheap to move by themselves.
  const std::vector<std::size_t>& not_constants() const { return not_constants_; }

 private:
  struct Look {  // one form to be made for some of the pours
    targets::Property property;
    targets::BarSettings settings;
    std::vector<std::size_t> sights;
  };
  struct Sight {  // one pour as one look sees it
    std::size_t pour = 0;
    std::size_t row = 0;  // of the property among properties_
  };
  enum class Kind { verdict, figure, order, drying };
  struct Piece {
    Kind kind = Kind::verdict;
    std::size_t a = 0, b = 0;  // sights
    std::vector<targets::Verdict> verdicts;
    bool blind = false;
    double expected = 0;  // what print says, in steps
    targets::Means means = targets::Means::grams_lost;
    std::size_t session = 0;
    double log_figure = 0;
    bool at_least = false;
    double days = 0;             // drying
    std::size_t pour = 0;        // drying
    std::size_t comparison = 0;  // where simulated() writes it back
    std::size_t measurement = 0, reading = 0;
  };
  struct Seen {
    std::vector<double> steps;  // score in steps
    std::vector<double> paces;  // what figures follow, in steps
  };

  void read_bars(const oils::Library& library);
  void read_comparisons();
  void read_measurements();
  void lay_out();
  void ask();
  std::size_t sight(std::size_t pour, targets::Property property, double days);
  std::optional<std::size_t> find_row(targets::Property property) const;
  std::size_t row_of(targets::Property property);
  double luck(std::span<const double> z) const;
  double pour_effect(std::span<const double> z, std::size_t pour, std::size_t row,
                     double luck) const;
  Hands hands(std::span<const double> z) const;
  static double saying_at(const Piece& piece, double predictor, const Hands& hands);
  static double stray(const Piece& piece, double predictor, const Hands& hands);
  void work_out(std::span<const double> z, Worked& worked) const;
  Seen see(std::span<const double> z, bool pours, Worked& worked) const;
  std::vector<double> predictors(const Seen& seen, const Worked& worked, std::span<const double> z,
                                 const Hands& hands) const;

  targets::MakerNotes notes_;
  targets::PropertyModel print_;
  std::vector<DistinctBar> bars_;
  std::vector<std::size_t> bar_of_;
  std::vector<const oils::Oil*> oils_;
  std::vector<targets::Composition> pure_;
  std::vector<std::vector<double>> shares_;  // per distinct bar, per oil of oils_
  std::vector<targets::Property> properties_;
  std::vector<Look> looks_;
  std::vector<Sight> sights_;
  std::vector<Piece> pieces_;
  std::vector<Saying> sayings_;
  std::vector<Asked> asked_;
  std::vector<std::pair<std::string, std::string>> lots_;             // oil, lot
  std::vector<std::vector<std::pair<std::size_t, double>>> lots_of_;  // per pour: lot, share
  std::map<std::string, std::size_t> session_of_;
  std::vector<std::size_t> spread_;  // constants that are not fixed
  std::size_t size_ = 0, scale_at_ = 0, offset_at_ = 0, luck_at_ = 0, effect_at_ = 0, lot_at_ = 0,
              hand_at_ = 0, means_at_ = 0, zero_at_ = 0;
  std::vector<std::size_t> not_constants_;
};

}  // namespace barwright::tune
