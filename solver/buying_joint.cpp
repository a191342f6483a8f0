#include "solver/buying_joint.hpp"

#include <utility>

namespace barwright::solver {

Joint::Joint(const BuyingQuestion& question, std::vector<JointColumn> columns, bool relaxed)
    : question_(question), columns_(std::move(columns)) {
  const std::size_t bars = question.bars.size();
  out_.steps = question.bars[0].problem.steps * static_cast<int>(bars);
  for (const auto& bar : question.bars) {
    for (const auto& column : columns_) {
      out_.oils.push_back(bar.problem.oils[static_cast<std::size_t>(column.oil)]);
      if (relaxed) {
        out_.oils.back().least = 1;
        out_.oils.back().must = false;
      }
    }
  }
  for (std::size_t b = 0; b < bars; ++b) {
    Form sum = empty();
    for (std::size_t c = 0; c < columns_.size(); ++c) sum.linear[variable(b, c)] = 1;
    const double part = 1.0 / static_cast<double>(bars);
    out_.limits.push_back({std::move(sum), part, part, -1});
    for (const auto& limit : question.bars[b].problem.limits) {
      out_.limits.push_back({mapped(limit.form, b), limit.low, limit.high, -1});
    }
  }
}

Form Joint::empty() const {
  Form form;
  form.linear.assign(question_.bars.size() * columns_.size(), 0.0);
  return form;
}

Form Joint::kilograms(std::size_t column) const {
  Form form = empty();
  const double bars = static_cast<double>(question_.bars.size());
  for (std::size_t b = 0; b < question_.bars.size(); ++b) {
    form.linear[variable(b, column)] = bars * question_.bars[b].oil_grams / 1000;
  }
  return form;
}

double Joint::kilograms_at(std::size_t column, std::span<const double> steps) const {
  double sum = 0;
  for (std::size_t b = 0; b < question_.bars.size(); ++b) {
    const auto& bar = question_.bars[b];
    sum += bar.oil_grams / 1000 * steps[variable(b, column)] / bar.problem.steps;
  }
  return sum;
}

std::vector<double> Joint::spread(const std::vector<double>& linear, std::size_t bar) const {
  std::vector<double> out(question_.bars.size() * columns_.size(), 0.0);
  const double bars = static_cast<double>(question_.bars.size());
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    out[variable(bar, c)] = bars * linear[static_cast<std::size_t>(columns_[c].oil)];
  }
  return out;
}

Form Joint::mapped(const Form& form, std::size_t bar) const {
  Form out;
  out.constant = form.constant;
  out.linear = spread(form.linear, bar);
  for (const auto& kink : form.kinks) {
    out.kinks.push_back({kink.weight, spread(kink.slope, bar), kink.cap});
  }
  return out;
}

}  // namespace barwright::solver
