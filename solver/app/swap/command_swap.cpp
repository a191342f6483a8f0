#include "solver/app/swap/command_swap.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "core/units/quantity.hpp"
#include "oils/books/shelf_reader.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/app/blend/recipe_yaml.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/interrupt.hpp"
#include "solver/app/library.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/tuned_words.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/app/progress.hpp"
#include "solver/app/swap/json_swap.hpp"
#include "solver/app/swap/text_swap.hpp"
#include "solver/app/time_limit.hpp"
#include "solver/jobs/report/report_swap.hpp"
#include "targets/brief/manners_reader.hpp"

namespace barwright::app {
namespace {

struct SwapOptions {
  CommonOptions common;
  std::string file;
  std::vector<std::string> out;
  std::string keep_at_most;
  std::vector<std::string> using_oils;
  std::string manners;
  std::string shelf;
  std::string save;
  std::string prices;
  double delivery = 0;
  std::string within;
  std::string page;
  bool csv = false;
  bool skip_wrong_rows = false;
  TunedOptions tuned;
};

double keep_at_most(const std::string& text) {
  if (text.empty()) return 0;
  try {
    const double value = core::to_fraction(core::parse_quantity(text));
    if (value >= 0 && value < 1) return value;
  } catch (const core::UnitError&) {  // falls through
  }
  throw UsageError{fmt::format("--keep-at-most {}: write a share such as 4 %", text)};
}

std::string known_oil(const std::string& option, const std::string& name,
                      const oils::Library& library) {
  const auto* oil = library.find(name);
  if (oil == nullptr) {
    throw UsageError{fmt::format("{} '{}': ", option, name) + library.remedy_for(name)};
  }
  return oil->name;
}

bool is_shelf(const std::string& word) { return word.ends_with(".yaml") || word.ends_with(".yml"); }

targets::OilsFrom oils_from(const std::vector<std::string>& words, bool has_shelf,
                            const oils::Library& library) {
  targets::OilsFrom out;
  if (words.empty()) (has_shelf ? out.shelf : out.library) = true;
  for (const auto& word : words) {
    if (word == "shelf") {
      out.shelf = true;
    } else if (word == "library") {
      out.library = true;
    } else if (is_shelf(word)) {
      out.shelves.push_back({{"--using " + word, {}, {}}, word});
    } else if (word.ends_with(".csv")) {
      if (out.price_list) throw UsageError{"--using: one price list is enough; put both in one."};
      out.price_list = targets::FileName{{"--using " + word, {}, {}}, word};
    } else {
      out.named.push_back({known_oil("--using", word, library), {"--using " + word, {}, {}}});
    }
  }
  return out;
}

// As a brief would write it behind 'manners:'.
targets::MannersWish manners_wish(const std::string& words) {
  if (words.empty()) return {};
  return targets::read_manners_wish(
      oils::yaml::Document::from_text("{manners: " + oils::yaml::quoted(words) + "}", "--manners")
          .root()
          .need("manners"));
}

std::optional<oils::Shelf> shelf_at(const std::string& path, const oils::Library& library) {
  if (path.empty()) return std::nullopt;
  return oils::read_shelf(path, library);
}

// The shelf must be read first: its own records are oils the brief may name.
std::string shelf_path(const SwapOptions& options) {
  if (!options.shelf.empty()) return options.shelf;
  const auto root = oils::yaml::Document::from_file(options.file).root();
  if (!root.is_map()) return {};
  const auto folder = std::filesystem::path(options.file).parent_path();
  const auto named = [&](const oils::yaml::Node& map) -> std::string {
    const auto node = map.get("shelf");
    if (!node || !node->is_scalar()) return {};
    auto path = (folder / node->text()).string();
    if (!std::filesystem::exists(path)) {
      node->fail("there is no shelf file '" + path + "'",
                 "Check the name; it is looked for from the folder of this file.");
    }
    return path;
  };
  std::string path = named(root);
  if (!path.empty()) return path;
  const auto recipe = root.get("recipe");
  if (recipe && recipe->is_map()) return named(*recipe);
  if (recipe && recipe->is_scalar()) {
    const auto file = folder / recipe->text();
    std::error_code none;
    if (!std::filesystem::is_regular_file(file, none)) return {};
    const auto inner = oils::yaml::Document::from_file(file.string()).root();
    if (!inner.is_map()) return {};
    if (const auto node = inner.get("shelf"); node && node->is_scalar()) {
      return (file.parent_path() / node->text()).string();
    }
  }
  return {};
}

bool is_brief(const std::string& path) {
  const auto root = oils::yaml::Document::from_file(path).root();
  return root.is_map() && (root.has("brief") || root.has("replace"));
}

// Other shelves whose oils may take the place, by the command line or the brief; read before it for
// the same reason.
std::vector<std::string> other_shelves(const SwapOptions& options) {
  std::vector<std::string> out;
  for (const auto& word : options.using_oils) {
    if (is_shelf(word)) out.push_back(word);
  }
  const auto root = oils::yaml::Document::from_file(options.file).root();
  if (!root.is_map() || !root.has("using")) return out;
  const auto node = root.need("using");
  const auto folder = std::filesystem::path(options.file).parent_path();
  const auto take = [&](const oils::yaml::Node& item) {
    if (!item.is_scalar() || !is_shelf(item.text())) return;
    out.push_back((folder / item.text()).string());
    std::error_code none;
    if (!std::filesystem::is_regular_file(out.back(), none)) {
      item.fail("there is no shelf file '" + out.back() + "'",
                "Check the name; it is looked for from the folder of this file.");
    }
  };
  if (node.is_list()) {
    for (const auto& item : node.items()) take(item);
  } else {
    take(node);
  }
  return out;
}

/// The shelf, the others, and the suppliers' lists they name; the library grows by their oils.
jobs::SwapSources read_sources(const SwapOptions& options, oils::Library& library,
                               std::vector<oils::ListMapping>& lists) {
  jobs::SwapSources sources;
  sources.shelf = shelf_at(shelf_path(options), library);
  if (sources.shelf) {
    library = sources.shelf->library;
    lists = sources.shelf->lists;
  }
  for (const auto& path : other_shelves(options)) {
    sources.others.push_back(oils::read_shelf(path, library));
    const auto& other = sources.others.back();
    library = other.library;
    lists.insert(lists.end(), other.lists.begin(), other.lists.end());
  }
  return sources;
}

targets::SwapBrief brief_of_recipe(const SwapOptions& options, const oils::Library& library,
                                   bool has_shelf) {
  if (options.out.empty()) {
    throw UsageError{fmt::format("'{}' is a recipe: say what goes, such as --out \"mango butter\".",
                                 options.file)};
  }
  const auto recipe = targets::read_recipe(options.file, library);
  std::vector<std::string> out;
  for (const auto& name : options.out) {
    out.push_back(known_oil("--out", name, library));
    bool there = false;
    for (const auto& part : recipe.blend.oils) there = there || part.oil.name == out.back();
    if (!there) {
      throw UsageError{fmt::format("--out '{}': the recipe has none of it.", name)};
    }
  }
  auto brief = jobs::swap_of_recipe(recipe, out, keep_at_most(options.keep_at_most),
                                    oils_from(options.using_oils, has_shelf, library));
  brief.rules.manners = manners_wish(options.manners);
  return brief;
}

targets::SwapBrief brief_of(const SwapOptions& options, const oils::Library& library,
                            bool has_shelf) {
  if (!is_brief(options.file)) return brief_of_recipe(options, library, has_shelf);
  if (!options.out.empty() || !options.keep_at_most.empty() || !options.using_oils.empty() ||
      !options.manners.empty()) {
    throw UsageError{
        "--out, --keep-at-most, --using and --manners go with a recipe; this is a brief, which "
        "says it itself."};
  }
  return targets::read_swap_brief(options.file, library);
}

/// The price list that --prices or the brief names, which must be the same; empty where neither
/// does.
std::string price_list(const SwapOptions& options, const targets::SwapBrief& brief) {
  const auto& list = brief.using_oils.price_list;
  if (!list) return options.prices;
  if (!options.prices.empty() && options.prices != list->path) {
    throw UsageError{fmt::format("--prices {}: the oils come from the price list {} already.",
                                 options.prices, list->path)};
  }
  return list->path;
}

std::string left_out_words(const jobs::SwapSources& sources, const jobs::SwapJob& job) {
  std::string notes;
  for (const auto& row : sources.prices.skipped) {
    notes += fmt::format("left out: {}:{}: {}\n", row.place.file, row.place.line, row.why);
  }
  for (const auto& left : job.blend.candidates.left_out) {
    notes += fmt::format("left out: {} ({})\n", left.oil, left.why);
  }
  return notes;
}

Outcome swap(const SwapOptions& options) {
  check_outputs({{options.save, {}}, {options.page, {}}});
  if (options.csv && options.common.json) {
    throw UsageError{"--csv and --json: one of the two."};
  }
  optimise::SearchOptions search;
  search.stop = stop_on_interrupt();
  const auto progress = progress_line();
  search.watch = progress.get();
  optimise::Allowance allowance;
  set_limit(options.within, allowance, search);
  oils::Library library = load_library(options.common);
  std::vector<oils::ListMapping> lists;
  jobs::SwapSources sources = read_sources(options, library, lists);
  targets::SwapBrief brief = brief_of(options, library, sources.shelf.has_value());
  const std::string prices = price_list(options, brief);
  if (prices.empty() && (options.delivery > 0 || options.skip_wrong_rows))
    throw UsageError{fmt::format("{} goes with a price list: name it with --prices.",
                                 options.delivery > 0 ? "--delivery" : "--skip-wrong-rows")};
  if (!prices.empty()) {
    sources.prices = oils::read_price_list(prices, library, options.skip_wrong_rows, lists);
  }
  sources.delivery = options.delivery;
  const TunedModel tuned = tuned_model_for(options.tuned, shelf_path(options), library);
  sources.model = tuned.model;
  const jobs::SwapJob job = jobs::swap_job(std::move(brief), library, sources);
  const jobs::SwapReport report = jobs::report_swap(job, library, search);
  const auto status = report.blend.result.answer.status;
  const int code = status == optimise::Status::optimal      ? kFound
                   : status == optimise::Status::infeasible ? kNothingFits
                                                            : kLimitReached;
  Outcome outcome{code,
                  options.common.json ? json_swap(report)
                  : options.csv       ? csv_swap(report)
                                      : text_swap(report, colour_wanted()),
                  left_out_words(sources, job)};
  if (!options.save.empty() && report.result) {
    write_beside(
        outcome, {options.save, {}},
        recipe_yaml(job.blend, report.blend.result, options.save, report.blend.manners.manners));
  }
  if (!options.page.empty()) write_beside(outcome, {options.page, {}}, page_swap(report));
  if (!options.csv) return with_tuned(std::move(outcome), options.common, tuned);
  if (!tuned.words.empty()) outcome.diagnostics += tuned.words + "\n";
  return outcome;
}

}  // namespace

void add_swap(Command app, Action& action) {
  auto options = std::make_shared<SwapOptions>();
  Command command =
      app.add_command("swap", "Take an oil out of a recipe and keep how the bar feels");
  command.value("file", options->file, "A swap brief, or a recipe with --out").required();
  command.values("--out", options->out, "Oil that goes, e.g. \"mango butter\"; may repeat");
  command.value("--keep-at-most", options->keep_at_most,
                "How much of it may stay, e.g. \"4 %\" (none unless stated)");
  command.values("--using", options->using_oils,
                 "What may take its place: shelf, library, an oil's name, another shelf "
                 "file (.yaml) or a price list (.csv); may repeat");
  command.value("--manners", options->manners,
                "Manners of the house to do without: none, or 'without few oils, vegan'");
  command.value("--shelf", options->shelf, "Shelf file with lots and prices");
  command.value("--prices", options->prices, "Price list (CSV) of what is to be bought");
  command.value("--delivery", options->delivery, "What an order costs to bring, in its money")
      .not_negative();
  command.flag("--skip-wrong-rows", options->skip_wrong_rows,
               "Leave rows of the price list out that cannot be read; each is named");
  command.value("--page", options->page, "Also write a page to this new .html file");
  command.flag("--csv", options->csv, "Print one table instead of text");
  command.value("--save", options->save, "Also write the new recipe to this new file");
  command.value("--within", options->within,
                "Stop after this time with the best so far: 5s, 500ms, 1min (unless stated, "
                "after work of about ten seconds)");
  add_tuned(command, options->tuned);
  add_common(command, options->common);
  add_units(command, options->common);
  command.footer(
      "Worked example: a costly butter out of the winter bar.\n"
      "  barwright new my-workshop\n"
      "  barwright swap my-workshop/butter-out.yaml\n"
      "or straight from a recipe:\n"
      "  barwright swap my-workshop/yard-bar.yaml --out coconut --keep-at-most \"10 %\" --using "
      "library\n"
      "prints first what changes outside the pot, then what is felt, what is saved, lye and water\n"
      "before and after, and two small batches to pour side by side.");
  command.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(units_of(options->common, options->file));
      return with_workshop(swap(*options), options->common, options->file);
    };
  });
}

}  // namespace barwright::app
