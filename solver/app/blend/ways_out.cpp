#include "solver/app/blend/ways_out.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/weight_text.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/edit_path.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/jobs/ways_out.hpp"

namespace barwright::app {
namespace {

using What = explain::Change::What;

std::string trimmed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') == std::string::npos) return text;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

// What a line says of an oil's share: "3 to 8 %", "at least 3 %", "none or at least 3 %".
std::string share_value(const std::string& least, const std::string& most, bool always) {
  if (least.empty() && most.empty()) return "always";
  if (least.empty())
    return always ? "{most: " + most + " %, always: yes}" : "at most " + most + " %";
  const std::string stays_out = always ? "" : "none or ";
  if (most.empty()) return stays_out + "at least " + least + " %";
  if (least == most) return stays_out + "exactly " + most + " %";
  return stays_out + least + " to " + most + " %";
}

std::string key_of(const std::string& text) { return text.substr(0, text.find(':')); }

// A line of the brief as it reads once it is changed.
class Editor {
 public:
  Editor(const jobs::BlendReport& report, const jobs::TriedWay& way)
      : report_(report),
        formulation_(report.result.formulation),
        now_(report.job->brief),
        way_(way) {}

  BriefEdit edit(int wish) const;

 private:
  const formulate::Asked& asked(int wish) const {
    return formulation_.asked[static_cast<std::size_t>(wish)];
  }
  void wish_line(BriefEdit& edit) const;
  void oil_line(BriefEdit& edit) const;
  void barred_line(BriefEdit& edit, const targets::BarredOil& bar) const;
  void tag_line(BriefEdit& edit, const targets::TagRule& tags) const;
  void more_of(BriefEdit& edit) const;
  void unsaid(BriefEdit& edit) const;

  const jobs::BlendReport& report_;
  const formulate::Formulation& formulation_;
  const targets::Brief& now_;
  const jobs::TriedWay& way_;
};

std::string amount(const std::string& unit, double value) {
  return trimmed(value, 9) + (unit.empty() ? "" : " " + unit);
}

std::string difference(const std::string& unit, double value, bool floor) {
  const bool above = value >= 0;
  return fmt::format("{} {} {}", floor == above ? "at least" : "no more than",
                     amount(unit, std::abs(value)), above ? "above" : "below");
}

// The ends of a wish. Joined by a word: a comma would end the entry of '{hardness: ...}'.
std::string phrase(const std::string& unit, bool compared, const std::string& than,
                   std::optional<double> low, std::optional<double> high) {
  const auto one = [&](double value, bool floor) {
    if (compared) return difference(unit, value, floor) + (than.empty() ? "" : " than " + than);
    return (floor ? "at least " : "at most ") + amount(unit, value);
  };
  if (low && high) return one(*low, true) + " and " + one(*high, false);
  return low ? one(*low, true) : one(high.value_or(0), false);
}

std::string phrase_of(const targets::Wish& wish, const std::string& unit) {
  const auto figure = [&](const std::optional<targets::Bound>& bound) -> std::optional<double> {
    if (!bound) return std::nullopt;
    if (bound->noticeable == 0) return bound->value;
    return bound->value + bound->noticeable * formulate::noticeable(wish.subject);
  };
  return phrase(unit, wish.compared, wish.than, figure(wish.low), figure(wish.high));
}

bool same_ends(const targets::Wish& a, const targets::Wish& b) {
  const auto same = [](const auto& x, const auto& y) {
    return x.has_value() == y.has_value() &&
           (!x || (x->value == y->value && x->noticeable == y->noticeable));
  };
  return same(a.low, b.low) && same(a.high, b.high);
}

void Editor::wish_line(BriefEdit& edit) const {
  const auto at = static_cast<std::size_t>(asked(edit.wish).wish);
  const auto& own = way_.brief->wishes[at];
  edit.words = phrase_of(own, asked(edit.wish).unit);
  edit.file = own.written.place.file;
  edit.line = own.written.place.line;
  edit.path = edit_path(own.written.node);
  edit.key = key_of(own.written.text);
  std::string value;
  for (std::size_t w = 0; w < now_.wishes.size(); ++w) {
    const auto &before = now_.wishes[w], &then = way_.brief->wishes[w];
    if (before.written.place != own.written.place) continue;
    value += (value.empty() ? "" : " and ") +
             (same_ends(before, then) ? before.written.text.substr(edit.key.size() + 2)
                                      : phrase_of(then, formulate::unit(then.subject)));
  }
  if (own.level) value += " and " + targets::words(*own.level);
  edit.value = value;
}

void Editor::oil_line(BriefEdit& edit) const {
  const auto find = [&](const targets::Brief& brief) -> const targets::OilLimit* {
    for (const auto& one : brief.rules.oils)
      if (one.oil.name == asked(edit.wish).subject) return &one;
    return nullptr;
  };
  const auto *before = find(now_), *then = find(*way_.brief);
  edit.section = "limits";
  edit.file = then->written.place.file;
  edit.line = then->written.place.line;
  edit.path = edit_path(then->written.node);
  edit.key = before != nullptr ? key_of(then->written.text) : asked(edit.wish).subject;
  const auto percent = [](const std::optional<double>& share) {
    return share ? trimmed(100 * *share, 6) : std::string();
  };
  if (!then->least && !then->most && !then->always) {
    edit.words = fmt::format("leave out '{}: always'", edit.key);
    return;
  }
  edit.value = share_value(percent(then->least), percent(then->most), then->always);
  edit.words = *edit.value;
  if (before == nullptr)
    edit.words = fmt::format("'{}: {}' under 'limits:'", edit.key, *edit.value);
  else if (before->always && !then->always)
    edit.words = fmt::format("'{}', which lets it stay out", *edit.value);
}

void Editor::barred_line(BriefEdit& edit, const targets::BarredOil& bar) const {
  edit.file = bar.written.place.file;
  edit.line = bar.written.place.line;
  edit.path = edit_path(bar.written.node);
  edit.key = "not";
  std::string rest;
  for (const auto& other : way_.brief->rules.barred)
    rest += (rest.empty() ? "" : ", ") + other.written.text;
  if (!rest.empty()) edit.value = "[" + rest + "]";
  std::string lets_in;
  for (const auto& change : way_.fix.changes) {
    if (change.wish != edit.wish || change.what != What::rule) continue;
    const auto& rule = formulation_.wishes.rules[static_cast<std::size_t>(change.index)];
    const auto& oil = report_.job->candidates.oils[static_cast<std::size_t>(rule.oil)].oil;
    const bool itself = oil.name == bar.oil && bar.tag.empty();
    const double share = jobs::written_percent(static_cast<int>(std::lround(change.to)),
                                               formulation_.problem.steps, false);
    lets_in += (lets_in.empty() ? "" : ", ") + (itself ? "" : oil.name + " at ") +
               trimmed(share, 6) + " %" + (itself ? " of it" : "");
  }
  edit.words =
      fmt::format("take '{}' off the 'not:' list; {} is enough", bar.written.text, lets_in);
}

void Editor::tag_line(BriefEdit& edit, const targets::TagRule& tags) const {
  const auto figure = [](const std::optional<double>& share) -> std::optional<double> {
    if (!share) return std::nullopt;
    return 100 * *share;
  };
  const auto low = figure(tags.least), high = figure(tags.most);
  edit.words = phrase("%", false, "", low, high);
  edit.file = tags.written.place.file;
  edit.line = tags.written.place.line;
  edit.path = edit_path(tags.written.node);
  edit.key = key_of(tags.written.text);
  edit.value = edit.words;
}

void Editor::more_of(BriefEdit& edit) const {
  const auto& wish = asked(edit.wish);
  for (const auto& change : way_.fix.changes) {
    if (change.wish != edit.wish) continue;
    const double to = jobs::written_grams(wish, change);
    double more = to;
    for (const auto& candidate : report_.job->candidates.oils)
      if (candidate.oil.name == wish.subject) more -= candidate.stock_grams.value_or(0);
    edit.words = fmt::format("{} to use, which is {} more", core::round_grams(to),
                             core::round_grams(std::ceil(more)));
  }
}

void Editor::unsaid(BriefEdit& edit) const {
  const auto& wish = asked(edit.wish);
  std::optional<double> low, high;
  for (const auto& change : way_.fix.changes) {
    if (change.wish != edit.wish || change.what == What::rule) continue;
    (change.what == What::floor ? low : high) = jobs::written_figure(wish, change);
  }
  edit.words = phrase(wish.unit, wish.compared, "", low, high);
}

BriefEdit Editor::edit(int wish) const {
  BriefEdit out;
  out.wish = wish;
  const auto& line = asked(wish);
  if (!way_.brief) {
    if (line.unit == "g")
      more_of(out);
    else
      unsaid(out);
    return out;
  }
  if (line.wish >= 0 && line.wish < static_cast<int>(now_.wishes.size())) {
    wish_line(out);
    return out;
  }
  for (const auto& tags : way_.brief->rules.tags) {
    if (line.words != tags.written.text || line.place != tags.written.place) continue;
    tag_line(out, tags);
    return out;
  }
  for (const auto& bar : now_.rules.barred) {
    if (line.place != bar.written.place || line.words != "not: " + bar.written.text) continue;
    barred_line(out, bar);
    return out;
  }
  if (line.unit == "oils") {
    out.file = line.place.file;
    out.line = line.place.line;
    out.path = edit_path(way_.brief->rules.most_oils_written.node);
    out.key = "oils";
    out.words = fmt::format("at most {}", way_.brief->rules.most_oils.value_or(0));
    out.value = out.words;
    return out;
  }
  oil_line(out);
  return out;
}

}  // namespace

std::vector<BriefEdit> edits_of(const jobs::BlendReport& report, const jobs::TriedWay& way) {
  const Editor editor(report, way);
  std::vector<BriefEdit> out;
  for (const auto& change : way.fix.changes) {
    const bool there = std::any_of(out.begin(), out.end(),
                                   [&](const BriefEdit& one) { return one.wish == change.wish; });
    if (!there) out.push_back(editor.edit(change.wish));
  }
  return out;
}

}  // namespace barwright::app
