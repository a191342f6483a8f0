#include "solver/app/blend/json_no.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "oils/text/yaml_text.hpp"
#include "solver/app/blend/json_wish.hpp"
#include "solver/app/blend/ways_out.hpp"
#include "solver/app/edit_path.hpp"

namespace barwright::app {
namespace {

std::string path_of(const BriefEdit& edit) {
  return edit.line == 0 ? edit.section + "." + edit.key : edit.path;
}

// What a button says that makes the change.
std::string edit_words(const jobs::BlendReport& report, const BriefEdit& edit) {
  const std::string& line = asked_of(report, edit.wish).words;
  if (edit.file.empty())
    return fmt::format("{}: have {}", asked_of(report, edit.wish).subject, edit.words);
  if (edit.line == 0 || !edit.value || edit.key == "not") return edit.words;
  return fmt::format("{}: {} instead of {}", edit.key, edit.words,
                     line.substr(std::min(line.size(), edit.key.size() + 2)));
}

Json ways_json(const jobs::BlendReport& report, const jobs::No& no) {
  std::vector<const jobs::TriedWay*> ways;
  for (const auto& way : no.ways) ways.push_back(&way);
  if (no.together) ways.push_back(&*no.together);
  Json out = Json::array();
  for (const auto* way : ways) {
    std::string say;
    Json edits = Json::array();
    for (const auto& edit : edits_of(report, *way)) {
      say += (say.empty() ? "" : "; ") + edit_words(report, edit);
      if (edit.file.empty()) continue;
      edits.push_back({{"file", edit.file},
                       {"path", path_of(edit)},
                       {"value", edit.value ? Json(*edit.value) : Json()}});
    }
    out.push_back(
        {{"say", say}, {"edits", edits}, {"opens", way->opens}, {"proved_least", way->fix.proved}});
  }
  return out;
}

std::string buy_words(const jobs::No& no, const explain::Purchase& purchase) {
  std::string names;
  for (const int oil : purchase.oils)
    names += (names.empty() ? "" : " and ") + no.purchase_names[static_cast<std::size_t>(oil)];
  return fmt::format("buy {}, {:.0f} g{}", names, jobs::kUsualPackGrams,
                     purchase.oils.size() > 1 ? " of each" : "");
}

// The brief is let use it: one more entry of 'oils-from'.
Json buy_edits(const jobs::BlendReport& report, const jobs::No& no,
               const explain::Purchase& purchase) {
  const auto& from = report.job->brief.oils_from.written;
  if (!from.node || from.place.line == 0) return Json::array();
  std::string list;
  const auto add = [&](const std::string& name) {
    list += (list.empty() ? "" : ", ") + oils::yaml::bare_or_quoted(name);
  };
  if (from.node.is_list())
    for (const auto& item : from.node.items()) add(item.text());
  else
    add(from.node.text());
  for (const int oil : purchase.oils) add(no.purchase_names[static_cast<std::size_t>(oil)]);
  Json edits = Json::array();
  edits.push_back(
      {{"file", from.place.file}, {"path", edit_path(from.node)}, {"value", "[" + list + "]"}});
  return edits;
}

Json extreme_json(const formulate::Asked& wish, const explain::Extreme& extreme) {
  if (extreme.steps.empty()) return nullptr;
  return {{"value", finite(wish.shown(extreme.value))}, {"proved", extreme.proved()}};
}

Json change_json(const jobs::BlendReport& report, const explain::Change& change) {
  const auto& wish = asked_of(report, change.wish);
  const bool rule = change.what == explain::Change::What::rule;
  Json out = wish_json(report, change.wish);
  out["side"] = rule ? "rule" : change.what == explain::Change::What::floor ? "least" : "most";
  out["from"] = finite(rule ? change.from * wish.per_unit : wish.shown(change.from));
  out["to"] = finite(rule ? change.to * wish.per_unit : wish.shown(change.to));
  return out;
}

Json fix_json(const jobs::BlendReport& report, const jobs::TriedWay& way) {
  const explain::Fix& fix = way.fix;
  Json changes = Json::array();
  for (const auto& change : fix.changes) changes.push_back(change_json(report, change));
  Json edits = Json::array();
  for (const auto& edit : edits_of(report, way)) {
    Json one = {{"words", edit.words}};
    if (!edit.file.empty()) {
      one["file"] = edit.file;
      one["line"] = edit.line > 0 ? Json(edit.line) : Json(nullptr);
      if (edit.line == 0) one["section"] = edit.section;
      one["key"] = edit.key;
      one["value"] = edit.value ? Json(*edit.value) : Json(nullptr);
    }
    edits.push_back(std::move(one));
  }
  return {{"changes", changes},
          {"edits", edits},
          {"opens", way.opens},
          {"proved_least", fix.proved},
          {"size_in_noticeable_steps", finite(fix.size)},
          {"blend", json_shares(report, fix.steps)}};
}

}  // namespace

Json no_json(const jobs::BlendReport& report, const jobs::No& no) {
  Json object = Json::object();
  Json wishes = Json::array();
  for (const int wish : no.conflict.wishes) wishes.push_back(wish_json(report, wish));
  object["conflict"] = {{"wishes", wishes},
                        {"proved", no.conflict.proved},
                        {"minimal", no.conflict.minimal},
                        {"smallest", no.conflict.smallest},
                        {"reason", no.conflict.reason}};
  if (const auto& lye = report.result.lye_in_the_way)
    object["lye_in_the_way"] = {{"reason", lye->reason()}, {"remedy", lye->remedy()}};
  Json reach = Json::array();
  for (const auto& one : no.reach) {
    Json entry = wish_json(report, one.wish);
    entry["under"] = one.under == explain::Under::rest    ? "the other wishes"
                     : one.under == explain::Under::rules ? "the rules on oils"
                                                          : "nothing else";
    entry["least"] = extreme_json(asked_of(report, one.wish), one.least);
    entry["most"] = extreme_json(asked_of(report, one.wish), one.most);
    reach.push_back(std::move(entry));
  }
  object["reach"] = reach;
  Json fixes = Json::array();
  for (const auto& way : no.ways) fixes.push_back(fix_json(report, way));
  if (no.together) fixes.push_back(fix_json(report, *no.together));
  object["fixes"] = fixes;
  object["ways_out"] = ways_json(report, no);
  Json purchases = Json::array();
  for (const auto& purchase : no.purchases.found) {
    Json names = Json::array();
    for (const int oil : purchase.oils) {
      names.push_back(no.purchase_names[static_cast<std::size_t>(oil)]);
    }
    purchases.push_back({{"oils", names},
                         {"price", finite(purchase.price)},
                         {"say", buy_words(no, purchase)},
                         {"edits", buy_edits(report, no, purchase)}});
  }
  object["purchases"] = purchases;
  object["purchases_proved"] = no.purchases.complete;
  return object;
}

Json json_shares(const jobs::BlendReport& report, std::span<const int> steps) {
  Json list = Json::array();
  const double all = report.result.formulation.problem.steps;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] == 0) continue;
    list.push_back(
        {{"oil", report.job->candidates.oils[i].oil.name}, {"percent", 100 * steps[i] / all}});
  }
  return list;
}

}  // namespace barwright::app
