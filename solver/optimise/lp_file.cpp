#include "solver/optimise/lp_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace barwright::optimise {
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
  Writer(const Problem& problem, const LpWords& words) : problem_(problem), words_(words) {
    for (std::size_t i = 0; i < problem.oils.size(); ++i) {
      std::string id = std::to_string(i + 1);
      for (char c : words.oils.empty() ? std::string() : "_" + words.oils[i]) {
        id += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '_';
      }
      ids_.push_back(id);
    }
  }

  LpText text() {
    std::string out = fmt::format(
        "\\ Oils in whole steps: the w add up to {}. z = 1: the oil is in.\n", problem_.steps);
    const std::string objective = goal(out);
    shares();
    for (std::size_t r = 0; r < problem_.limits.size(); ++r) limit(r);
    for (const std::string& what : left_out_) {
      out += fmt::format("\\ Not linear, so not in this file: {}.\n", what);
    }
    if (limits_left_out_) {
      out += "\\ Without these limits more blends fit: what is best here is a bound, no answer.\n";
    }
    out += "Minimize\n goal:" + objective + "\nSubject To\n" + rows_;
    out += "Bounds\n one = 1\n" + bounds();
    out += "Generals\n" + listed("w") + "Binaries\n" + listed("z");
    for (const std::string& b : binaries_) out += " " + b + "\n";
    return {out + "End\n", left_out_};
  }

 private:
  std::string w(std::size_t i) const { return "w" + ids_[i]; }
  std::string z(std::size_t i) const { return "z" + ids_[i]; }

  bool barred(std::size_t i) const { return problem_.oils[i].most <= 0; }

  // The first goal over w and z, and lines about it.
  std::string goal(std::string& lines) {
    const std::string named = words_.goal.empty() ? "the goal" : "the goal '" + words_.goal + "'";
    Sum count;
    for (std::size_t i = 0; words_.fewest_oils && i < ids_.size(); ++i) count.add(1, z(i));
    if (words_.fewest_oils) {
      lines += one_line(fmt::format("Goal: {}, a count of the z.", words_.goal));
      return count.text();
    }
    if (problem_.goals.empty()) return " + 0 one";
    const Goal& first = problem_.goals[0];
    if (!first.pulls.empty() || !first.form.guards.empty()) {
      left_out_.push_back(named);
      lines += "\\ Any blend that fits is best here.\n";
      return " + 0 one";
    }
    if (!words_.goal.empty()) {
      lines +=
          one_line(fmt::format("Goal: {}, on the search's own scale, least is best.", words_.goal));
    }
    if (!words_.found.empty()) {
      lines += fmt::format("\\ The blend found comes to {:.17g}.\n",
                           first.at(problem_.shares(words_.found)));
    }
    if (problem_.goals.size() > 1) lines += "\\ Only the first goal is written here.\n";
    return form("goal", first.form, Pushed::down).text();
  }

  static std::string one_line(std::string text) {
    for (char& c : text) c = std::iscntrl(static_cast<unsigned char>(c)) != 0 ? ' ' : c;
    return "\\ " + text + "\n";
  }

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
      // A row, for a reader may set the bounds of a binary back to 0 and 1.
      if (problem_.oils[i].must || barred(i)) {
        Sum fixed;
        fixed.add(1, z(i));
        row("in" + ids_[i], fixed, "=", problem_.oils[i].must ? 1 : 0);
      }
    }
  }

  void slope(Sum& sum, const std::vector<double>& a) const {
    for (std::size_t i = 0; i < a.size(); ++i) sum.add(a[i] / problem_.steps, w(i));
  }

  /// The form over w, `one` and helpers; adds the rows its helpers need.
  Sum form(const std::string& name, const Form& f, Pushed pushed) {
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
    if (!l.form.guards.empty()) {
      const auto wish = static_cast<std::size_t>(std::max(l.wish, 0));
      std::string what = l.wish < 0 || wish >= words_.wishes.size() ? name : words_.wishes[wish];
      // A wish may stand behind several limits.
      if (std::find(left_out_.begin(), left_out_.end(), what) == left_out_.end()) {
        left_out_.push_back(std::move(what));
      }
      limits_left_out_ = true;
      return;
    }
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
  const LpWords& words_;
  std::vector<std::string> left_out_;
  bool limits_left_out_ = false;
  std::vector<std::string> ids_;
  std::vector<std::string> helpers_;
  std::vector<std::string> binaries_;
  std::string rows_;
};

}  // namespace

LpText lp_text(const Problem& problem, const LpWords& words) {
  if (!words.oils.empty() && words.oils.size() != problem.oils.size()) {
    throw std::invalid_argument("the LP file needs one name per oil");
  }
  problem.validate();
  return Writer(problem, words).text();
}

}  // namespace barwright::optimise
