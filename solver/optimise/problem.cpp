#include "solver/optimise/problem.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <string>

namespace barwright::optimise {
namespace {

double dot(const std::vector<double>& a, std::span<const double> x) {
  return std::inner_product(a.begin(), a.end(), x.begin(), 0.0);
}

double largest(const std::vector<double>& a) {
  double most = 0;
  for (double v : a) most = std::max(most, std::abs(v));
  return most;
}

void need(bool holds, const std::string& what) {
  if (!holds) throw std::invalid_argument("optimise::Problem: " + what);
}

void validate(const Form& form, std::size_t oils, const std::string& where) {
  need(std::isfinite(form.constant), where + ": constant is not finite");
  const auto fits = [&](const std::vector<double>& a) {
    need(a.size() == oils, where + ": as many coefficients as oils are needed");
    need(std::all_of(a.begin(), a.end(), [](double v) { return std::isfinite(v); }),
         where + ": a coefficient is not finite");
  };
  fits(form.linear);
  for (const Kink& kink : form.kinks) {
    fits(kink.slope);
    need(std::isfinite(kink.weight) && std::isfinite(kink.cap), where + ": a kink is not finite");
  }
  for (const Guard& guard : form.guards)
    need(guard.part != nullptr && std::isfinite(guard.weight), where + ": a guard is not finite");
}

// sign > 0: the form is kept above something; below 0: below it, or minimised.
void validate_guards(const Form& form, double sign, const std::string& where) {
  need(std::all_of(form.guards.begin(), form.guards.end(),
                   [&](const Guard& guard) { return sign * guard.weight >= 0; }),
       where + ": a guard stands on its wrong side");
}

}  // namespace

Form weighted_sum(std::span<const double> per_oil) {
  Form form;
  form.linear.assign(per_oil.begin(), per_oil.end());
  return form;
}

Form scaled(Form form, double factor) {
  form.constant *= factor;
  for (double& value : form.linear) value *= factor;
  for (Kink& kink : form.kinks) kink.weight *= factor;
  for (Guard& guard : form.guards) guard.weight *= factor;
  return form;
}

double Form::at(std::span<const double> x) const {
  double value = constant + dot(linear, x);
  for (const Kink& kink : kinks) value += kink.weight * std::min(dot(kink.slope, x), kink.cap);
  for (const Guard& guard : guards) value += guard.weight * guard.part->at(x);
  return value;
}

double Form::scale() const {
  double most = std::max(1.0, largest(linear));
  for (const Kink& kink : kinks) most = std::max(most, std::abs(kink.weight) * largest(kink.slope));
  for (const Guard& guard : guards)
    most = std::max(most, std::abs(guard.weight) * guard.part->steepest());
  return most;
}

double Goal::at(std::span<const double> x) const {
  double value = form.at(x);
  for (const Pull& pull : pulls) {
    const double miss = pull.form.at(x) - pull.point;
    value += pull.weight * miss * miss;
  }
  return value;
}

double Goal::placed(double value) const {
  return scale.place && std::isfinite(value) ? scale.place(value) : value;
}

double Goal::moved(double value, double by) const {
  if (!scale.place || by == 0 || !std::isfinite(value)) return value + by;
  // Rounding may not turn it round.
  const double to = scale.value(scale.place(value) + by);
  return by > 0 ? std::max(value, to) : std::min(value, to);
}

void Problem::validate() const {
  const std::size_t n = oils.size();
  need(steps >= 1, "steps must be at least 1");
  need(most_oils >= 0, "most_oils must not be negative");
  for (const OilBounds& oil : oils)
    need(oil.least >= 1 && oil.most >= 0, "least must be at least 1 and most at least 0");
  for (std::size_t r = 0; r < limits.size(); ++r) {
    const std::string where = "limit " + std::to_string(r);
    optimise::validate(limits[r].form, n, where);
    need(!std::isnan(limits[r].low) && !std::isnan(limits[r].high), where + ": a side is NaN");
    need(limits[r].low < kInfinity && limits[r].high > -kInfinity,
         where + ": a side lies beyond every number");
    if (limits[r].low > -kInfinity) validate_guards(limits[r].form, 1, where);
    if (limits[r].high < kInfinity) validate_guards(limits[r].form, -1, where);
  }
  for (std::size_t g = 0; g < goals.size(); ++g) {
    const std::string where = "goal " + std::to_string(g);
    optimise::validate(goals[g].form, n, where);
    need(goals[g].give >= 0, where + ": give must not be negative");
    need(goals[g].tie >= 0 && goals[g].tie < kInfinity, where + ": tie must be 0 or more");
    validate_guards(goals[g].form, -1, where);
    for (const Pull& pull : goals[g].pulls) {
      optimise::validate(pull.form, n, where + ", pull");
      need(pull.form.guards.empty(), where + ": a pull cannot carry a guard");
      need(pull.weight >= 0 && std::isfinite(pull.weight) && std::isfinite(pull.point),
           where + ": a pull needs a finite point and a weight of at least 0");
    }
  }
}

std::vector<double> Problem::shares(std::span<const int> w) const {
  std::vector<double> x(w.size());
  for (std::size_t i = 0; i < w.size(); ++i) x[i] = double(w[i]) / steps;
  return x;
}

}  // namespace barwright::optimise
