#include "solver/app/blend/json_wish.hpp"

#include <algorithm>
#include <cmath>

#include "solver/app/blend/text_sureness.hpp"
#include "solver/app/edit_path.hpp"
#include "solver/formulate/subject.hpp"

namespace barwright::app {
namespace {

using targets::Subject;

const targets::Wish* wish_of(const jobs::BlendReport& report, const formulate::Asked& asked) {
  const auto& wishes = report.job->brief.wishes;
  if (asked.wish < 0 || asked.wish >= static_cast<int>(wishes.size())) return nullptr;
  return &wishes[static_cast<std::size_t>(asked.wish)];
}

// What a line of the brief was written as, found by its place.
const targets::Written* written_at(const jobs::BlendReport& report, const core::Place& place) {
  const auto& rules = report.job->brief.rules;
  const auto at = [&](const targets::Written& one) { return one.place == place; };
  for (const auto& wish : report.job->brief.wishes)
    if (at(wish.written)) return &wish.written;
  for (const auto& one : rules.oils)
    if (at(one.written)) return &one.written;
  for (const auto& one : rules.tags)
    if (at(one.written)) return &one.written;
  for (const auto& one : rules.barred)
    if (at(one.written)) return &one.written;
  return at(rules.most_oils_written) ? &rules.most_oils_written : nullptr;
}

Json property_of(const targets::Wish* wish) {
  if (wish == nullptr) return nullptr;
  if (wish->subject.kind == Subject::Kind::oil_cost) return "cost";
  if (wish->subject.kind != Subject::Kind::property) return nullptr;
  return std::string(targets::name(wish->subject.property));
}

// An end of a wish in its own figures; size words count in what is noticed.
Json end_of(const targets::Wish* wish, const std::optional<targets::Bound>& end) {
  if (!end) return nullptr;
  return finite(end->value + (end->noticeable == 0
                                  ? 0
                                  : end->noticeable * formulate::noticeable(wish->subject)));
}

Json with_ends(const jobs::BlendReport& report, int asked) {
  const auto& wish = asked_of(report, asked);
  const targets::Wish* written = wish_of(report, wish);
  Json out = wish_json(report, asked);
  out["low"] = written == nullptr ? Json() : end_of(written, written->low);
  out["high"] = written == nullptr ? Json() : end_of(written, written->high);
  out["level"] = targets::words(wish.level);
  return out;
}

Json judged(const jobs::BlendReport& report, const formulate::Verdict& verdict) {
  const auto& wish = asked_of(report, verdict.asked);
  Json one = wish_json(report, verdict.asked);
  one["value"] = finite(verdict.value * wish.per_unit);
  one["low"] = finite(verdict.low * wish.per_unit);
  one["high"] = finite(verdict.high * wish.per_unit);
  one["level"] = targets::words(wish.level);
  one["tie"] = inside_the_doubt(report, verdict);
  return one;
}

}  // namespace

Json finite(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json wish_json(const jobs::BlendReport& report, int asked) {
  const auto& wish = asked_of(report, asked);
  const targets::Written* written = written_at(report, wish.place);
  Json out = {{"wish", wish.words},
              {"file", wish.place.file},
              {"line", wish.place.line},
              {"unit", wish.unit},
              {"compared", wish.compared}};
  out["path"] = written != nullptr && written->node ? Json(edit_path(written->node)) : Json();
  out["property"] = property_of(wish_of(report, wish));
  return out;
}

Json wishes_json(const jobs::BlendReport& report) {
  Json out = Json::array();
  if (report.result.has_blend()) {
    for (const auto& verdict : report.result.verdicts) out.push_back(judged(report, verdict));
    return out;
  }
  const auto& asked = report.result.formulation.asked;
  for (std::size_t i = 0; i < asked.size(); ++i)
    if (asked[i].place.line > 0) out.push_back(with_ends(report, static_cast<int>(i)));
  return out;
}

Json oil_rules_json(const jobs::BlendReport& report) {
  Json out = Json::array();
  const auto percent = [](const std::optional<double>& share) {
    return share ? Json(100 * *share) : Json();
  };
  for (const auto& rule : report.job->brief.rules.oils)
    out.push_back({{"oil", rule.oil.name},
                   {"least", percent(rule.least)},
                   {"most", percent(rule.most)},
                   {"file", rule.written.place.file},
                   {"path", rule.written.node ? Json(edit_path(rule.written.node)) : Json()}});
  return out;
}

}  // namespace barwright::app
