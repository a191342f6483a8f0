#pragma once

#include <string>
#include <utility>
#include <vector>

#include "solver/batch/batch_plan.hpp"

// What stands in a pot and its worst case, recomputed with arithmetic of its own: only the planned
// weights and the oils' figures come from the plan.
namespace barwright::tests {

/// One part's pot. Weights in grams, values in mg KOH/g.
struct Model {
  struct Fat {
    std::string name;
    double grams = 0, low = 0, typical = 0, error = 0;
    double of_addition = -1;  // g of fat per g of the addition
  };
  struct Acid {
    std::string name;
    double grams = 0, moles = 0, least = 0, water = 0;  // per g
  };
  struct Addition {
    std::string name;
    double grams = 0, water = 0;
    bool in_lye = false;     ///< weighed with the lye
    bool dissolves = false;  ///< of it, there as the alkali dissolves
  };
  struct Alkali {
    double grams = 0, stated = 0, strongest = 0, molar = 0, error = 0;
  };
  std::vector<Fat> fats;
  std::vector<Acid> acids;
  std::vector<Addition> additions;
  std::vector<Alkali> alkali;  // of the pot the lye is in
  double water = 0;
  bool shared = false, no_lye = false;
  double portion = 0, making_weight = 0, lye_error = 0, cold_limit = 0.5;

  double grams_in_pot() const;  ///< of the lye
  double strength() const;      ///< mass fraction as the alkali dissolves
  /// Returns the superfat as fractions, nominal and worst.
  std::pair<double, double> superfat() const;
};

/// Returns the part as planned. `cold_limit`: the strongest lye that stays clear.
Model model_of(const batch::BatchPlan& plan, const batch::PartPlan& part, double cold_limit);

/// A line of a part, as the test names it.
struct Line {
  enum class Kind { fat, acid, addition, alkali, water, lye } kind = Kind::fat;
  std::size_t at = 0;
  std::string name;
};

std::vector<Line> lines_of(const Model& model);
double grams_of(const Model& model, const Line& line);
void set_grams(Model& model, const Line& line, double grams);
/// Sets a line; what hits the pot of a shared lye hits every part's model.
void change(std::vector<Model>& models, std::size_t part, const Line& line, double grams);

}  // namespace barwright::tests
