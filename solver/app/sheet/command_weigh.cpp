#include "solver/app/sheet/command_weigh.hpp"

#include <fmt/format.h>

#include <cmath>
#include <memory>

#include "core/bench/mould.hpp"
#include "core/bench/temperature_solid.hpp"
#include "oils/books/shelf.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/blend/json_blend.hpp"
#include "solver/app/blend/json_rails.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/json.hpp"
#include "solver/app/library.hpp"
#include "solver/app/print/tuned_words.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/jar_notes.hpp"
#include "solver/recipe/recipe_of_file.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/recipe_file.hpp"
#include "targets/model/caution.hpp"
#include "targets/model/yardstick.hpp"

namespace barwright::app {
namespace {

struct WeighOptions {
  CommonOptions common;
  std::string recipe;
  std::string to;
  std::string beside;
  TunedOptions tuned;
};

// What --to says: read as the brief's own 'make:' in this folder is.
std::optional<targets::MakeSize> wanted(const std::string& to, const std::string& folder) {
  if (to.empty()) return std::nullopt;
  const std::string text =
      to.find(':') == std::string::npos || to.front() == '{' ? to : "{" + to + "}";
  return targets::read_make(oils::yaml::Document::from_text(text, "--to").root(), folder);
}

struct Weighed {
  targets::RecipeFile file;
  core::Recipe recipe;
  targets::Composition composition;
  std::vector<targets::NamedPart> parts;
  formulate::KnownBar compared;
  std::vector<jobs::PropertyLine> properties;
  std::vector<std::string> cautions;
  int bars = 0;
  double cured_bar_grams = 0;
  double clear_celsius = 0;  ///< from here on no fat of it is solid
  TunedModel tuned{targets::PropertyModel::embedded(), {}, {}};
};

formulate::KnownBar beside(const std::string& name, const oils::Library& library) {
  targets::Yardstick yardstick;
  yardstick.name = name;
  yardstick.shipped = name;
  if (targets::find_yardstick(name) == nullptr) {
    std::string known;
    for (const auto& one : targets::shipped_yardsticks()) known += "\n  " + one.name;
    throw UsageError{
        fmt::format("--beside: '{}' is no plain bar we know. Known are:{}", name, known)};
  }
  return jobs::known_bar(yardstick, library, std::nullopt);
}

Weighed weigh_out(const WeighOptions& options) {
  const oils::Library base = load_library(options.common);
  const auto shelf = jobs::shelf_of_brief(options.recipe, base);
  const oils::Library& library = shelf ? shelf->library : base;
  Weighed out;
  out.file = targets::read_recipe(options.recipe, library);
  auto make = wanted(options.to, out.file.folder);
  if (!make) make = recipe::size_of(out.file);
  out.bars = recipe::bars(make);
  const auto asked =
      recipe::recipe_of_file(out.file, make, library, shelf ? &*shelf : nullptr, out.bars);
  const std::vector<oils::Oil>& kinds = asked.kinds;
  out.recipe = core::weigh(asked.request);
  if (shelf) {
    for (auto& note : recipe::jar_notes(out.recipe, *shelf))
      out.recipe.notes.push_back(std::move(note));
    core::sort_notes(out.recipe.notes);
  }
  if (out.bars > 0) {
    out.cured_bar_grams = out.recipe.total_grams * core::cured_fraction(out.recipe) / out.bars;
  }
  std::vector<targets::Composition> compositions;
  std::vector<double> shares;
  std::vector<core::MeltingFat> melting;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    compositions.push_back(targets::composition(kinds[i]));
    shares.push_back(out.recipe.oils[i].grams / out.recipe.oils_grams);
    out.parts.push_back({kinds[i].name, compositions.back(), shares.back()});
    melting.push_back(
        {kinds[i].typical_profile(), shares.back(), kinds[i].form == oils::Form::wax});
  }
  out.clear_celsius = core::clear_celsius(melting);
  out.composition = targets::mix(compositions, shares);
  out.compared =
      beside(options.beside.empty() ? std::string(targets::kPlainBar) : options.beside, library);
  out.tuned = tuned_model_for(options.tuned, jobs::shelf_file_of_brief(options.recipe), library);
  out.properties = jobs::property_lines(out.tuned.model, out.composition,
                                        recipe::settings_of(out.recipe), out.compared, out.parts);
  out.cautions = targets::cautions(out.composition);
  return out;
}

/// How warm oils and lye are to meet, where the recipe says so, and whether the oils are clear
/// then.
std::string warm_words(const Weighed& weighed) {
  const auto& lye = weighed.file.lye;
  if (!lye.oils_celsius) return {};
  std::string out = fmt::format("Pour with the oils at {:.0f} C", *lye.oils_celsius);
  if (lye.lye_celsius) out += fmt::format(" and the lye at {:.0f} C", *lye.lye_celsius);
  if (*lye.oils_celsius >= weighed.clear_celsius) return out + ".";
  return out + fmt::format(
                   ": these oils are all clear only from about {:.0f} C; cooler they are cloudy "
                   "or set, and thicken without being soap (false trace).",
                   std::ceil(weighed.clear_celsius));
}

std::string text(const Weighed& weighed) {
  Screen screen(colour_wanted());
  const core::Scales scales = recipe::scales(weighed.file.scale);
  screen.title(weighed.file.name.empty() ? weighed.file.file : weighed.file.name,
               grams(weighed.recipe.oils_grams, scales.oils.step) + " of oils");
  show_recipe(screen, weighed.recipe, scales);
  if (const std::string words = warm_words(weighed); !words.empty()) screen.sentence(words);
  if (weighed.bars > 0) {
    screen.sentence(
        fmt::format("{} bars of {} cut, about {} cured.", weighed.bars,
                    core::mass_text(weighed.recipe.total_grams / weighed.bars, core::shown_units()),
                    core::mass_text(weighed.cured_bar_grams, core::shown_units())));
  }
  show_comparison(screen, weighed.properties, weighed.compared.name);
  show_notes(screen, weighed.recipe, weighed.cautions);
  screen.heading("NEXT");
  screen.sentence(
      order_words(weighed.recipe) +
      (core::shown_units() == core::Units::ounces
           ? " Another size: --to \"bars: 36, each: 3.7 oz, weighed: cut\" or --to \"92 oz oils\"."
           : " Another size: --to \"bars: 36, each: 105 g, weighed: cut\" or --to \"2600 g "
             "oils\"."));
  return screen.text();
}

std::string json(const Weighed& weighed) {
  const Json object = {{"schema", kJsonSchema},
                       {"command", "weigh"},
                       {"status", "weighed"},
                       {"name", weighed.file.name},
                       {"compared_with", weighed.compared.name},
                       {"properties", json_properties(weighed.properties)},
                       {"recipe", json_recipe(weighed.recipe)},
                       {"cautions", weighed.cautions}};
  return object.dump(2) + "\n";
}

}  // namespace

void add_weigh(Command app, Action& action) {
  auto options = std::make_shared<WeighOptions>();
  Command command =
      app.add_command("weigh", "Weigh out a blend you already have, or make it another size");
  command.value("recipe", options->recipe, "The recipe, a YAML file").required();
  command.value("--to", options->to,
                "Another size: \"2600 g oils\", \"bars: 36, each: 105 g, weighed: cut\", or "
                "as under 'make:'");
  command.value("--beside", options->beside, "Plain bar to compare with, e.g. all-olive");
  add_tuned(command, options->tuned);
  add_common(command, options->common);
  add_units(command, options->common);
  command.footer(
      "Worked example: the bar on sale, weighed out for 48 bars of 105 g.\n"
      "  barwright weigh my-workshop/yard-bar.yaml --to \"bars: 48, each: 105 g, weighed: cured\"\n"
      "prints every weight, the lye and water, and what is left over if a line is forgotten.");
  command.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(units_of(options->common, options->recipe));
      const Weighed weighed = weigh_out(*options);
      return with_workshop(with_tuned({0, options->common.json ? json(weighed) : text(weighed), {}},
                                      options->common, weighed.tuned),
                           options->common, options->recipe);
    };
  });
}

}  // namespace barwright::app
