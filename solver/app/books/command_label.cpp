#include "solver/app/books/command_label.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <set>

#include "core/bench/release.hpp"
#include "core/trade/label.hpp"
#include "core/units/format.hpp"
#include "oils/books/shelf_reader.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/books/command_label_entry.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/json.hpp"
#include "solver/app/library.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/books/label_request.hpp"

namespace barwright::app {
namespace {

struct LabelOptions {
  CommonOptions common;
  std::string file, with, custom, net;
  int bars = 0;
};

struct Label {
  std::string name;
  core::Custom custom = core::Custom::eu;
  std::optional<double> net_grams;
  bool net_estimated = false;
  core::IngredientList added, saponified;
  std::vector<core::Claim> claims;
  std::vector<std::string> remarks;
};

std::string named(const core::Ingredient& item) {
  return item.name == item.from ? item.name : fmt::format("{} ({})", item.name, item.from);
}

/// What must be looked up or verified, each once, over both lists.
void add_remarks(Label& label) {
  std::set<std::string> seen;
  std::vector<std::string> analogy, memory, missing;
  for (const auto* list : {&label.added, &label.saponified}) {
    for (const auto& item : list->items) {
      if (!seen.insert(item.name + "\n" + item.from).second) continue;
      if (item.status == core::NameStatus::formed_by_analogy) analogy.push_back(item.name);
      if (item.status == core::NameStatus::recalled) memory.push_back(named(item));
      if (item.status == core::NameStatus::missing) missing.push_back(item.name);
    }
  }
  const auto unique = [](const std::vector<std::string>& names) {
    std::string out;
    std::set<std::string> once;
    for (const auto& name : names) {
      if (once.insert(name).second) out += (out.empty() ? "" : ", ") + name;
    }
    return out;
  };
  if (!missing.empty())
    label.remarks.push_back(fmt::format(
        "No label name is known for: {}. Take it from the supplier's document and enter it under "
        "'names:' in the label file.",
        unique(missing)));
  if (!analogy.empty())
    label.remarks.push_back(
        fmt::format("Formed by analogy, to be verified before printing: {}.", unique(analogy)));
  if (!memory.empty())
    label.remarks.push_back(
        fmt::format("From memory of the open lists, to be checked: {}.", unique(memory)));
}

void take_entry(core::LabelRequest& request, const LabelEntry& entry) {
  std::vector<std::string> known;
  for (const auto& addition : request.additions) known.push_back(addition.name);
  const auto need = [&](const std::string& name, const char* key) {
    if (std::find(known.begin(), known.end(), name) != known.end()) return;
    throw core::InputError(
        {entry.file, 0, 0},
        fmt::format("'{}' under '{}' is nothing that goes into this bar", name, key),
        known.empty() ? "Beside fats, lye and water nothing goes into it."
                      : oils::yaml::nearest_and_known(name, known));
  };
  for (const auto& [name, unused] : entry.names) need(name, "names");
  for (const auto& name : entry.colourants) need(name, "colourants");
  for (const auto& name : entry.scents) need(name, "scents");
  for (const auto& allergen : entry.allergens) need(allergen.scent, "allergens");
  for (auto& addition : request.additions) {
    const auto own = entry.names.find(addition.name);
    if (own != entry.names.end()) addition.own_name = own->second;
    if (std::count(entry.colourants.begin(), entry.colourants.end(), addition.name) > 0)
      addition.own_role = core::Role::colourant;
    if (std::count(entry.scents.begin(), entry.scents.end(), addition.name) > 0)
      addition.own_role = core::Role::fragrance;
  }
  request.allergens = entry.allergens;
}

Label label_of(const LabelOptions& options) {
  const oils::Library base = load_library(options.common);
  // The shelf's own records bring their names; the label itself needs no stock.
  std::optional<oils::Shelf> shelf;
  if (const auto path = books::shelf_named_in(options.file)) shelf = oils::read_shelf(*path, base);
  const oils::Library& library = shelf ? shelf->library : base;
  const books::MakePlan plan =
      books::make_plan(options.file, library, shelf ? &*shelf : nullptr, options.bars);
  core::LabelRequest request = books::label_request(plan, library);
  Label out;
  out.name = plan.name;
  LabelEntry entry;
  if (!options.with.empty()) {
    entry = read_label_entry(options.with);
    out.name = entry.name;
    take_entry(request, entry);
    out.claims = core::find_claims(entry.words + "; " + entry.name);
  }
  if (!options.custom.empty())
    out.custom = options.custom == "us" ? core::Custom::us : core::Custom::eu;
  else
    out.custom = entry.custom.value_or(core::Custom::eu);
  request.custom = out.custom;
  if (!options.net.empty())
    out.net_grams = typed_grams(options.net, "--net");
  else if (entry.net_grams)
    out.net_grams = entry.net_grams;
  double estimate = 0;
  if (plan.bars > 0) {
    std::vector<core::PartWeight> weights;
    for (const auto& part : plan.parts) weights.push_back({part.name, part.poured, part.cured});
    estimate = core::cured_bar_grams(weights, plan.bars);
    if (!out.net_grams) {
      out.net_grams = core::label_grams(estimate);
      out.net_estimated = true;
    }
  }
  out.added = core::as_added(request);
  out.saponified = core::as_saponified(request);
  add_remarks(out);
  if (out.net_estimated)
    out.remarks.push_back(
        fmt::format("The net weight is an estimate from the water that leaves ({:.1f} g, rounded "
                    "down): weigh cured bars and state no more than the lightest.",
                    estimate));
  else if (out.net_grams && estimate > 0 && *out.net_grams > estimate)
    out.remarks.push_back(
        fmt::format("The stated {} is more than the {:.0f} g a cured bar is "
                    "estimated to weigh.",
                    core::net_weight_line(*out.net_grams, core::Custom::eu), estimate));
  bool scented = false;
  for (const auto& addition : request.additions)
    scented = scented || (addition.own_role == core::Role::fragrance);
  if (scented && request.allergens.empty())
    out.remarks.push_back(
        "A scent is in it, and no allergens are entered: copy them from its certificate to "
        "'allergens:' in a label file ('--with').");
  return out;
}

void show_list(Screen& screen, const char* heading, const char* beside,
               const core::IngredientList& list) {
  screen.heading(heading, beside);
  screen.sentence(list.line() + ".");
  std::vector<std::vector<std::string>> rows;
  for (const auto& item : list.items) {
    rows.push_back({item.name, fmt::format("{:.2f} %", 100 * item.fraction),
                    item.from == item.name ? "" : item.from,
                    item.status == core::NameStatus::established ? "" : core::word(item.status)});
  }
  screen.blank();
  screen.table("lrll", rows);
}

std::string text(const Label& label) {
  Screen screen(colour_wanted());
  screen.title(label.name, label.custom == core::Custom::eu ? "EU custom" : "US custom");
  if (label.net_grams) {
    screen.heading("NET WEIGHT");
    screen.sentence(core::net_weight_line(*label.net_grams, label.custom));
  }
  show_list(screen, "INGREDIENTS, AS ADDED", "what went into the pot", label.added);
  show_list(screen, "INGREDIENTS, AS SAPONIFIED", "what is in the cured bar", label.saponified);
  screen.heading("BEFORE YOU PRINT");
  screen.sentence(core::law_note());
  for (const auto& remark : label.remarks) screen.sentence(remark, "!");
  for (const auto& claim : label.claims)
    screen.sentence(fmt::format("'{}' {}.", claim.word, claim.why), "!");
  return screen.text();
}

Json json_list(const core::IngredientList& list) {
  Json out = {{"line", list.line()}, {"items", Json::array()}};
  for (const auto& item : list.items) {
    out["items"].push_back({{"name", item.name},
                            {"from", item.from},
                            {"percent", 100 * item.fraction},
                            {"name_status", core::word(item.status)},
                            {"colourant", item.role == core::Role::colourant},
                            {"allergen", item.allergen}});
  }
  return out;
}

std::string json(const Label& label) {
  auto object = json_head("label", "listed");
  object["name"] = label.name;
  object["custom"] = label.custom == core::Custom::eu ? "eu" : "us";
  if (label.net_grams) {
    object["net_weight_grams"] = *label.net_grams;
    object["net_weight_line"] = core::net_weight_line(*label.net_grams, label.custom);
    object["net_weight_estimated"] = label.net_estimated;
  }
  object["as_added"] = json_list(label.added);
  object["as_saponified"] = json_list(label.saponified);
  object["remarks"] = label.remarks;
  object["claims"] = Json::array();
  for (const auto& claim : label.claims)
    object["claims"].push_back({{"word", claim.word}, {"why", claim.why}});
  object["law"] = core::law_note();
  return object.dump(2) + "\n";
}

}  // namespace

void add_label(Command app, Action& action) {
  auto options = std::make_shared<LabelOptions>();
  Command command = app.add_command(
      "label", "The ingredient list, as added and as saponified, and the net weight");
  command.value("file", options->file, "The recipe or batch").required();
  command.value("--with", options->with,
                "A label file: names, colourants, allergens of the scents, words");
  command.value("--custom", options->custom, "Whose custom: eu or us").one_of({"eu", "us"});
  command.value("--net", options->net, "Net weight to state: \"100 g\"");
  command.value("--bars", options->bars, "Bars as cut").above_zero();
  add_common(command, options->common);
  command.footer(
      "Worked example: the list for a scented bar, allergens from its certificate.\n"
      "  barwright label my-workshop/towpath-batch.yaml --with towpath-label.yaml\n"
      "where towpath-label.yaml holds\n"
      "  label: towpath\n"
      "  scents: [wet stone and mint]\n"
      "  allergens: {wet stone and mint: {Limonene: 8 %, Linalool: 0.4 %}}\n"
      "  words: [made by hand, gentle]");
  command.on_chosen([options, &action] {
    action = [options] {
      const Label label = label_of(*options);
      return Outcome{0, options->common.json ? json(label) : text(label), {}};
    };
  });
}

}  // namespace barwright::app
