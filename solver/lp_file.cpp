#include "solver/lp_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace barwright::solver {
namespace {

constexpr int kTermsPerLine = 6;  // the format's readers cut lines at 255 characters or more

/// Sum of coefficients times variables, as it stands in the file.
class Sum {
 public:
  void add(double coefficient, const std::string& variable) {
    if (coefficient == 0) return;
    if (terms_ > 0 && terms_ % kTermsPerLine == 0) text_ += "\n   ";
    text_ +=
        fmt::format(" {} {:.17g} {}", coefficient < 0 ? '-' : '+', std::abs(coefficient), variable);
    ++terms_;
  }
  std::string text() const { return terms_ == 0 ? " + 0 one" : text_; }

 private:
  std::string text_;
  int terms_ = 0;
};

/// What is wanted of a form, which decides whether its bends need a binary.
enum class Pushed { up, down, both };

class Writer {
 public:
  Writer(const Problem& problem, std::span<const std::string> names) : problem_(problem) {
    for (std::size_t i = 0; i < problem.oils.size(); ++i) {
      std::string id = std::to_string(i + 1);
      for (char c : names.empty() ? std::string() : "_" + names[i]) {
        id += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '_';
      }
      ids_.push_back(id);
    }
  }

  std::string text() {
    const Goal* goal = problem_.goals.empty() ? nullptr : &problem_.goals[0];
    if (goal != nullptr && !goal->pulls.empty()) {
      throw std::invalid_argument(
          "a goal with squares cannot be written in the linear LP format; ask for the cheapest or "
          "for most or least of one property");
    }
    const std::string objective =
        goal == nullptr ? " + 0 one" : form("goal", goal->form, Pushed::down).text();
    shares();
    for (std::size_t r = 0; r < problem_.limits.size(); ++r) limit(r);
    std::string out = fmt::format(
        "\\ Oils in whole steps: the w add up to {}. z = 1: the oil is in.\n", problem_.steps);
    if (problem_.goals.size() > 1) out += "\\ Only the first goal is written here.\n";
    out += "Minimize\n goal:" + objective + "\nSubject To\n" + rows_;
    out += "Bounds\n one = 1\n" + bounds();
    out += "Generals\n" + listed("w") + "Binaries\n" + listed("z");
    for (const std::string& b : binaries_) out += " " + b + "\n";
    return out + "End\n";
  }

 private:
  std::string w(std::size_t i) const { return "w" + ids_[i]; }
  std::string z(std::size_t i) const { return "z" + ids_[i]; }

  bool barred(std::size_t i) const { return problem_.oils[i].most <= 0; }

  void row(const std::string& name, const Sum& sum, const char* relation, double right) {
    rows_ += fmt::format(" {}:{} {} {:.17g}\n", name, sum.text(), relation, right);
  }

  void shares() {
    Sum all;
    Sum used;
    for (std::size_t i = 0; i < ids_.size(); ++i) {
      all.add(1, w(i));
      used.add(1, z(i));
    }
    row("whole", all, "=", problem_.steps);
    if (problem_.most_oils > 0) row("count", used, "<=", problem_.most_oils);
    for (std::size_t i = 0; i < ids_.size(); ++i) {
      Sum least;
      least.add(1, w(i));
      least.add(-std::max(problem_.oils[i].least, 1), z(i));
      row("least" + ids_[i], least, ">=", 0);
      Sum most;
      most.add(1, w(i));
      most.add(-std::min(std::max(problem_.oils[i].most, 0), problem_.steps), z(i));
      row("most" + ids_[i], most, "<=", 0);
    }
  }

  void slope(Sum& sum, const std::vector<double>& a) const {
    for (std::size_t i = 0; i < a.size(); ++i) sum.add(a[i] / problem_.steps, w(i));
  }

  /// The form over w, `one` and helpers; adds the rows its helpers need.
  Sum form(const std::string& name, const Form& f, Pushed pushed) {
    if (!f.guards.empty()) throw std::invalid_argument("lp_text: a guard is not linear");
    Sum sum;
    slope(sum, f.linear);
    sum.add(f.constant, "one");
    for (std::size_t k = 0; k < f.kinks.size(); ++k) {
      const Kink& kink = f.kinks[k];
      if (kink.weight == 0) continue;
      const std::string h = fmt::format("h_{}_{}", name, k + 1);
      const bool pushed_up =
          (pushed == Pushed::up && kink.weight > 0) || (pushed == Pushed::down && kink.weight < 0);
      helper(h, kink, !pushed_up);
      sum.add(kink.weight, h);
    }
    return sum;
  }

  void helper(const std::string& h, const Kink& kink, bool exactly) {
    helpers_.push_back(h);
    Sum below;
    below.add(1, h);
    for (std::size_t i = 0; i < kink.slope.size(); ++i) {
      below.add(-kink.slope[i] / problem_.steps, w(i));
    }
    row(h + "_slope", below, "<=", 0);
    Sum cap;
    cap.add(1, h);
    row(h + "_cap", cap, "<=", kink.cap);
    if (!exactly) return;
    // Shares are fractions of one, so slope.x lies between the least and the largest slope.
    const auto [least, largest] = std::minmax_element(kink.slope.begin(), kink.slope.end());
    const std::string b = "b" + h.substr(1);
    binaries_.push_back(b);
    below.add(std::max(0.0, *largest - kink.cap), b);
    row(h + "_at_slope", below, ">=", 0);
    const double gap = std::max(0.0, kink.cap - *least);
    cap.add(-gap, b);
    row(h + "_at_cap", cap, ">=", kink.cap - gap);
  }

  void limit(std::size_t r) {
    const Limit& l = problem_.limits[r];
    const bool floor = l.low != -kInfinity;
    const bool ceiling = l.high != kInfinity;
    if (!floor && !ceiling) return;
    const std::string name = fmt::format("limit{}", r + 1);
    const Pushed pushed = floor && ceiling ? Pushed::both : floor ? Pushed::up : Pushed::down;
    const Sum sum = form(name, l.form, pushed);
    if (floor) row(name + "_low", sum, ">=", l.low);
    if (ceiling) row(name + "_high", sum, "<=", l.high);
  }

  std::string bounds() const {
    std::string out;
    for (std::size_t i = 0; i < ids_.size(); ++i) {
      const int most = std::min(std::max(problem_.oils[i].most, 0), problem_.steps);
      out += fmt::format(" 0 <= {} <= {}\n", w(i), most);
      if (problem_.oils[i].must) {
        out += fmt::format(" {} = 1\n", z(i));
      } else if (barred(i)) {
        out += fmt::format(" {} = 0\n", z(i));
      }
    }
    for (const std::string& h : helpers_) out += fmt::format(" {} free\n", h);
    return out;
  }

  std::string listed(const std::string& letter) const {
    std::string out;
    for (const std::string& id : ids_) out += " " + letter + id + "\n";
    return out;
  }

  const Problem& problem_;
  std::vector<std::string> ids_;
  std::vector<std::string> helpers_;
  std::vector<std::string> binaries_;
  std::string rows_;
};

}  // namespace

std::string lp_text(const Problem& problem, std::span<const std::string> names) {
  if (!names.empty() && names.size() != problem.oils.size()) {
    throw std::invalid_argument("the LP file needs one name per oil");
  }
  problem.validate();
  return Writer(problem, names).text();
}

bool is_guarded(const Problem& problem) {
  const auto guarded = [](const auto& part) { return !part.form.guards.empty(); };
  return std::any_of(problem.limits.begin(), problem.limits.end(), guarded) ||
         std::any_of(problem.goals.begin(), problem.goals.end(), guarded);
}

}  // namespace barwright::solver
