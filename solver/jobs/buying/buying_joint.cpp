#include "solver/jobs/buying/buying_joint.hpp"

#include <algorithm>
#include <memory>
#include <utility>

namespace barwright::jobs {
namespace {

// A concave part of one bar's shares, over the variables of the joint problem: the bar's shares are
// linear in them, so it stays concave, and its planes stay planes.
class OfOneBar final : public optimise::Concave {
 public:
  /// `oil_of`: per variable the oil it is a part of, -1 for variables of other bars.
  OfOneBar(std::shared_ptr<const optimise::Concave> part, std::vector<int> oil_of, std::size_t oils,
           double factor)
      : part_(std::move(part)), oil_of_(std::move(oil_of)), oils_(oils), factor_(factor) {}

  double at(std::span<const double> x) const override { return part_->at(shares(x)); }
  double plane(std::span<const double> x, std::span<double> slope) const override {
    std::vector<double> inner(oils_);
    const double at_none = part_->plane(shares(x), inner);
    for (std::size_t v = 0; v < oil_of_.size(); ++v)
      slope[v] = oil_of_[v] < 0 ? 0 : factor_ * inner[static_cast<std::size_t>(oil_of_[v])];
    return at_none;
  }
  std::size_t work() const override { return part_->work() + 2 * oil_of_.size(); }
  double steepest() const override { return factor_ * part_->steepest(); }
  bool same(std::size_t a, std::size_t b) const override {
    if (oil_of_[a] == oil_of_[b]) return true;
    return oil_of_[a] >= 0 && oil_of_[b] >= 0 &&
           part_->same(static_cast<std::size_t>(oil_of_[a]), static_cast<std::size_t>(oil_of_[b]));
  }

 private:
  std::vector<double> shares(std::span<const double> x) const {
    std::vector<double> out(oils_, 0.0);
    for (std::size_t v = 0; v < oil_of_.size(); ++v)
      if (oil_of_[v] >= 0) out[static_cast<std::size_t>(oil_of_[v])] += factor_ * x[v];
    return out;
  }

  std::shared_ptr<const optimise::Concave> part_;
  std::vector<int> oil_of_;
  std::size_t oils_;
  double factor_;
};

}  // namespace

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
    optimise::Form sum = empty();
    for (std::size_t c = 0; c < columns_.size(); ++c) sum.linear[variable(b, c)] = 1;
    const double part = 1.0 / static_cast<double>(bars);
    out_.limits.push_back({std::move(sum), part, part, -1});
    for (const auto& limit : question.bars[b].problem.limits) {
      out_.limits.push_back({mapped(limit.form, b), limit.low, limit.high, -1});
    }
  }
}

optimise::Form Joint::empty() const {
  optimise::Form form;
  form.linear.assign(question_.bars.size() * columns_.size(), 0.0);
  return form;
}

optimise::Form Joint::kilograms(std::size_t column) const {
  optimise::Form form = empty();
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

optimise::Form Joint::mapped(const optimise::Form& form, std::size_t bar) const {
  optimise::Form out;
  out.constant = form.constant;
  out.linear = spread(form.linear, bar);
  for (const auto& kink : form.kinks) {
    out.kinks.push_back({kink.weight, spread(kink.slope, bar), kink.cap});
  }
  if (form.guards.empty()) return out;
  std::vector<int> oil_of(out.linear.size(), -1);
  for (std::size_t c = 0; c < columns_.size(); ++c) oil_of[variable(bar, c)] = columns_[c].oil;
  for (const auto& guard : form.guards) {
    out.guards.push_back(
        {guard.weight, std::make_shared<OfOneBar>(guard.part, oil_of, form.linear.size(),
                                                  static_cast<double>(question_.bars.size()))});
  }
  return out;
}

}  // namespace barwright::jobs
