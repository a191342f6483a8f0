#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "oils/text/yaml.hpp"
#include "targets/model/composition.hpp"
#include "targets/model/model.hpp"
#include "targets/model/property.hpp"
#include "targets/model/property_form.hpp"

namespace barwright::targets {

/// What of a bar a person feels.
enum class FeelPart { dry_bar, lather, skin_after };
inline constexpr std::size_t kFeelPartCount = 3;

/// Returns "the dry bar in the hand", ...
const std::string& words(FeelPart part);

/// One thing felt, as data/feel.yaml states it. All figures judgement.
struct FeelTerm {
  std::string name;
  FeelPart part = FeelPart::dry_bar;
  std::optional<Property> property;                 ///< its even part; else a plain sum:
  std::array<double, kComponentCount> per_share{};  ///< % per share of the component
  double superfat = 0;                              ///< % per share of superfat
  double notice = 1;                                ///< points or %, what a user would just notice
  double weight = 1;                                ///< within its part
  std::vector<std::string> aspects;                 ///< "dry touch", or names of properties
  std::string more;
  std::string less;
  std::string why;
};

/// Returns the terms, in file order.
const std::vector<FeelTerm>& feel_terms();

/// Returns how many times its weight a term counts when these aspects matter most, the first most;
/// one figure per term. An aspect is "dry touch" or a property's name.
std::vector<double> emphasis(std::span<const std::string> matters_most);

/// A term as a linear form: constant + linear . components, in units of which 1 is just noticed.
struct FeelForm {
  double constant = 0;
  Weights linear{};
  double at(const Composition& composition) const;
};

/// Returns the terms' forms for a bar with these settings, one per term.
std::vector<FeelForm> feel_forms(const PropertyModel& model, const BarSettings& settings);

/// How far two bars are apart in feel, in units of which 1 is just noticed.
struct FeelGap {
  std::vector<double> terms;                 ///< bar minus yardstick, one per term
  std::array<double, kFeelPartCount> parts;  ///< root of the weighted sum of squares
  double total = 0;                          ///< the same over all parts
  double part(FeelPart which) const { return parts[static_cast<std::size_t>(which)]; }
};

/// Returns the gap from a yardstick to a bar, every term at its own weight.
FeelGap feel_gap(const PropertyModel& model, const Composition& bar, const BarSettings& settings,
                 const Composition& yardstick, const BarSettings& yardstick_settings);

/// Reads terms from a text; `file` stands for it in errors. Errors: core::InputError.
struct FeelData {
  std::array<std::string, kFeelPartCount> parts;
  std::vector<FeelTerm> terms;
  std::vector<double> times;  ///< of the aspects that matter most
};
FeelData read_feel(const std::string& text, const std::string& file);
FeelData read_feel(const oils::yaml::Document& document);  ///< the same

}  // namespace barwright::targets
