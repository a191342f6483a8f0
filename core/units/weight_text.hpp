#pragma once

#include <string>

namespace barwright::core {

/// What weights are shown in. All arithmetic is in grams.
enum class Units { grams, ounces };

/// Returns what weights are shown in just now, in this thread: grams unless a ShownIn stands.
Units shown_units();
/// For its life weights of this thread are shown in these units.
class ShownIn {
 public:
  explicit ShownIn(Units units);
  ~ShownIn();
  ShownIn(const ShownIn&) = delete;
  ShownIn& operator=(const ShownIn&) = delete;

 private:
  Units before_;
};

/// How a weight is brought to what a scale can show.
enum class Rounding { nearest, down };

/// Returns a weight as a scale in these units shows it, `step` its smallest difference in g:
/// "1360 g" in grams; "2 lb 15.97 oz", under a pound "13.40 oz" in ounces, to the tenth, hundredth
/// ... that is no coarser than the step. Lye is rounded down.
std::string weight_text(double grams, double step, Units units, Rounding rounding);
/// Returns a weight for a sentence or a list, where no scale is asked: "2.6 kg" or "640 g"; "5 lb
/// 11.7 oz" or "22.6 oz".
std::string mass_text(double grams, Units units);

/// Returns a weight for a sentence in what is shown just now: "2640 g", or as mass_text.
std::string round_grams(double grams);

/// Returns a dose of grams per kg in what is shown just now: "9.1 g per kg", or "0.15 oz per lb".
std::string rate_text(double grams_per_kg);
/// The same from one to another: "2 to 3 g per kg", "0.03 to 0.05 oz per lb".
std::string rate_span(double low, double high);

}  // namespace barwright::core
