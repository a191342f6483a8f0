#include "solver/app/books/command_label.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <set>

#include "core/bench/release.hpp"
#include "core/trade/claim_check.hpp"
#include "core/trade/label.hpp"
#include "core/units/faults.hpp"
#include "core/units/format.hpp"
#include "core/units/quantity.hpp"
#include "core/units/scale.hpp"
#include "core/units/weight_text.hpp"
#include "oils/books/shelf_reader.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/books/command_label_entry.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/json.hpp"
#include "solver/app/library.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/books/label_request.hpp"

namespace barwright::app {
namespace {

struct LabelOptions {
  CommonOptions common;
  std::string file, with, custom, net, size, page;
  int bars = 0;
};

struct Label {
  std::string name;
  core::Custom custom = core::Custom::eu;
  std::optional<double> net_grams;
  bool net_estimated = false;
  core::IngredientList added, saponified;
  std::vector<core::Claim> claims;
  std::vector<core::JudgedClaim> judged;
  std::vector<std::string> remarks;
  std::optional<PrintedLabel> printed;
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

/// Holds every word meant for the wrapper against what is in the bar. Errors: InputError for each
/// that the bar contradicts, at its place.
std::vector<core::JudgedClaim> judged_words(const LabelEntry& entry,
                                            const std::vector<core::InBar>& bar) {
  std::vector<core::JudgedClaim> out;
  core::Faults faults;
  for (const auto& node : entry.said) {
    for (auto& claim : core::judge_claims(node.text(), bar)) {
      faults.of([&] {
        if (claim.verdict != core::JudgedClaim::Verdict::lie) return;
        std::string why;
        for (const auto& each : claim.why) why += (why.empty() ? "" : " ") + each;
        node.fail(fmt::format("'{}' is not true of this bar. {}", node.text(), why),
                  "Take the words off the label, or what contradicts them out of the bar.");
      });
      out.push_back(std::move(claim));
    }
  }
  faults.done();
  return out;
}

std::string percent_span(const core::Range& span) {
  return fmt::format("{:.1f} to {:.1f} %", 100 * span.least, 100 * span.most);
}

/// Says which neighbours of a list may as well stand the other way round.
void tell_near(Label& label, const char* which, const core::IngredientList& list) {
  for (const std::size_t i : list.nearly_equal()) {
    const auto& one = list.items[i];
    const auto& next = list.items[i + 1];
    label.remarks.push_back(
        fmt::format("{}: {} ({}) and {} ({}) weigh nearly the same: either may stand first.", which,
                    one.name, percent_span(one.span), next.name, percent_span(next.span)));
  }
}

constexpr double kLeastPoints = 6.5;

/// Lays the label out to size. Errors: UsageError where it cannot fit.
void lay_out(Label& label, const LabelEntry& entry, const LabelSize& size) {
  PrintedLabel out;
  out.size = size;
  out.name = label.name;
  for (std::size_t i = 1; i < entry.said.size(); ++i) out.words.push_back(entry.said[i].text());
  out.ingredients = (entry.list_as_added ? label.added : label.saponified).line();
  if (label.net_grams) out.net_weight = core::net_weight_line(*label.net_grams, label.custom);
  if (!fit(out))
    throw UsageError{fmt::format(
        "A label of {:g} x {:g} mm is too small for these words, even in letters of 4 points: make "
        "it larger, or fold it.",
        size.width, size.height)};
  if (out.points < kLeastPoints)
    label.remarks.push_back(fmt::format(
        "Only letters of {:g} points fit on {:g} x {:g} mm: hard to read. In the US letters are at "
        "least 1/16 inch high, about {:g} points (21 CFR 701.3(b), recalled); make it larger.",
        out.points, size.width, size.height, kLeastPoints));
  label.printed = std::move(out);
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

std::optional<LabelSize> asked_size(const LabelOptions& options, const LabelEntry& entry) {
  if (options.size.empty()) {
    if (!entry.size && !options.page.empty())
      throw UsageError{"--page prints to size: give it, as --size \"70 mm x 40 mm\"."};
    return entry.size;
  }
  try {
    return label_size(options.size);
  } catch (const core::UnitError& error) {
    throw UsageError{fmt::format("--size: {}. {}", error.what(), error.remedy())};
  }
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
    out.judged = judged_words(entry, books::in_bar(plan, request, library));
    for (const auto& claim : out.judged) {
      for (const auto& why : claim.why)
        out.remarks.push_back(fmt::format("'{}': {}", claim.claim, why));
    }
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
  tell_near(out, "As added", out.added);
  tell_near(out, "As saponified", out.saponified);
  if (out.net_estimated)
    out.remarks.push_back(
        fmt::format("The net weight is an estimate from the water that leaves ({}, rounded "
                    "down): weigh cured bars and state no more than the lightest.",
                    core::grams_text(core::rounded(estimate, 0.1))));
  else if (out.net_grams && estimate > 0 && *out.net_grams > estimate)
    out.remarks.push_back(fmt::format(
        "The stated {} is more than the {} a cured bar is estimated to weigh.",
        core::net_weight_line(*out.net_grams, core::Custom::eu), core::round_grams(estimate)));
  bool scented = false;
  for (const auto& addition : request.additions)
    scented = scented || (addition.own_role == core::Role::fragrance);
  if (scented && request.allergens.empty())
    out.remarks.push_back(
        "A scent is in it, and no allergens are entered: copy them from its certificate to "
        "'allergens:' in a label file ('--with').");
  if (const auto size = asked_size(options, entry)) lay_out(out, entry, *size);
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
  if (label.printed) {
    screen.heading("TO SIZE", fmt::format("{:g} x {:g} mm", label.printed->size.width,
                                          label.printed->size.height));
    screen.sentence(fmt::format(
        "Letters of {:g} points, the ingredients on {} lines. '--page' prints it with a line of 50 "
        "mm below: measure that on paper before you cut. If it is not 50 mm, print at 100 % "
        "('actual size', no fitting to the page). This text on a screen has no size of its own.",
        label.printed->points, label.printed->lines));
  }
  if (!label.printed)
    screen.sentence(
        "To size: --size \"70 mm x 40 mm\" --page label.html; a line of 50 mm below it, measured "
        "on "
        "paper, shows whether the printer kept the size.");
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
                            {"percent_least", 100 * item.span.least},
                            {"percent_most", 100 * item.span.most},
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
  object["judged_claims"] = Json::array();
  for (const auto& claim : label.judged)
    object["judged_claims"].push_back(
        {{"claim", claim.claim},
         {"verdict",
          claim.verdict == core::JudgedClaim::Verdict::doubtful ? "doubtful" : "true so far"},
         {"why", claim.why}});
  if (label.printed)
    object["printed"] = {{"width_mm", label.printed->size.width},
                         {"height_mm", label.printed->size.height},
                         {"points", label.printed->points},
                         {"ingredient_lines", label.printed->lines}};
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
  command.value("--size", options->size, "Width and height of the label: \"70 mm x 40 mm\"");
  command.value("--page", options->page, "Write the label to size as a page to print (HTML)");
  add_common(command, options->common);
  add_units(command, options->common);
  command.footer(
      "Worked example: the list for a scented bar, allergens from its certificate.\n"
      "  barwright label my-workshop/towpath-batch.yaml --with towpath-label.yaml\n"
      "where towpath-label.yaml holds\n"
      "  label: towpath\n"
      "  scents: [wet stone and mint]\n"
      "  allergens: {wet stone and mint: {Limonene: 8 %, Linalool: 0.4 %}}\n"
      "  words: [made by hand, gentle]\n"
      "  size: 90 mm x 50 mm\n"
      "and '--page towpath-label.html' prints it to size.");
  command.on_chosen([options, &action] {
    action = [options] {
      constexpr std::string_view kMark = "content=\"barwright label\"";
      check_outputs({{options->page, kMark}});
      const core::ShownIn shown(units_of(options->common, options->file));
      const Label label = label_of(*options);
      Outcome out{0, options->common.json ? json(label) : text(label), {}};
      if (!options->page.empty())
        write_beside(out, {options->page, kMark}, page_label(*label.printed));
      return with_workshop(std::move(out), options->common, options->file);
    };
  });
}

}  // namespace barwright::app
