#include "solver/jobs/blend_job_reader.hpp"

#include <algorithm>
#include <filesystem>
#include <memory>

#include "oils/books/shelf_reader.hpp"
#include "oils/books/stock.hpp"
#include "solver/formulate/sure_memo.hpp"
#include "targets/files/workshop.hpp"
#include "targets/model/yardstick.hpp"

namespace barwright::jobs {
namespace {

// An oil carries its tags and all that they imply.
oils::Oil with_implied_tags(oils::Oil oil, const oils::Library& library) {
  for (const auto& [word, tag] : library.tags()) {
    for (const auto* carrier : library.with_tag(word)) {
      if (carrier->name == oil.name) oil.tags.insert(word);
    }
  }
  return oil;
}

double left_on_shelf(const targets::OilRules& rules, const std::string& oil) {
  double grams = 0;
  for (const auto& leave : rules.leave_on_shelf) {
    if (leave.oil.name == oil) grams += leave.grams;
  }
  return grams;
}

formulate::Candidate from_shelf(const oils::Holding& holding, const targets::OilRules& rules,
                                const oils::Library& library) {
  formulate::Candidate out;
  out.oil = with_implied_tags(holding.figures, library);
  out.on_shelf = true;
  out.stock_grams = std::max(
      0.0, holding.grams - std::max(holding.keep_grams, left_on_shelf(rules, holding.oil)));
  out.price_per_kg = holding.price_per_kg;
  out.holding = std::make_shared<const oils::Holding>(holding);
  out.composition = targets::composition(out.oil);
  return out;
}

formulate::Candidate from_library(const oils::Oil& oil, const std::optional<oils::Shelf>& shelf,
                                  const oils::Library& library) {
  formulate::Candidate out;
  out.oil = with_implied_tags(oil, library);
  if (shelf) {
    if (const auto holding = shelf->holding(oil.name)) {
      out.price_per_kg = holding->price_per_kg;
      out.holding = std::make_shared<const oils::Holding>(*holding);
    }
  }
  out.composition = targets::composition(out.oil);
  return out;
}

bool wants_price(const targets::Brief& brief) {
  const auto costs = [](const targets::Wish& wish) {
    return wish.subject.kind == targets::Subject::Kind::oil_cost;
  };
  const auto cheapest = [](const targets::Goal& goal) {
    return goal.kind == targets::Goal::Kind::cheapest ||
           goal.subject.kind == targets::Subject::Kind::oil_cost;
  };
  return std::any_of(brief.wishes.begin(), brief.wishes.end(), costs) ||
         std::any_of(brief.goals.begin(), brief.goals.end(), cheapest);
}

// On the shelf first, then cheapest, then by name: the order in which ties break.
bool comes_first(const formulate::Candidate& a, const formulate::Candidate& b) {
  if (a.on_shelf != b.on_shelf) return a.on_shelf;
  if (a.price_per_kg.has_value() != b.price_per_kg.has_value()) return a.price_per_kg.has_value();
  if (a.price_per_kg && *a.price_per_kg != *b.price_per_kg)
    return *a.price_per_kg < *b.price_per_kg;
  return a.oil.name < b.oil.name;
}

targets::BarSettings settings(const targets::Yardstick& yardstick) {
  targets::BarSettings out;
  if (yardstick.superfat) out.superfat = *yardstick.superfat;
  if (yardstick.concentration) out.lye_concentration = *yardstick.concentration;
  if (yardstick.koh_share) out.koh_share = *yardstick.koh_share;
  return out;
}

// Adds one oil to a known bar whose members so far are share-weighted sums.
void add_part(formulate::KnownBar& bar, const oils::Oil& oil, double share,
              const std::optional<oils::Shelf>& shelf) {
  bar.saponification_value += share * oil.saponification_value.span.typical;
  bar.iodine_value += share * oil.iodine_value.span.typical;
  bar.parts.push_back({oil, share});
  std::optional<double> price;
  if (shelf) {
    if (const auto holding = shelf->holding(oil.name)) price = holding->price_per_kg;
  }
  if (price) {
    bar.price_per_kg += share * *price;
  } else {
    bar.priced = false;
  }
}

formulate::KnownBar from_parts(std::string name,
                               const std::vector<std::pair<const oils::Oil*, double>>& parts,
                               const std::optional<oils::Shelf>& shelf) {
  formulate::KnownBar bar;
  bar.name = std::move(name);
  bar.priced = true;
  std::vector<targets::Composition> compositions;
  std::vector<double> shares;
  for (const auto& [oil, share] : parts) {
    compositions.push_back(targets::composition(*oil));
    shares.push_back(share);
    add_part(bar, *oil, share, shelf);
  }
  bar.composition = targets::mix(compositions, shares);
  return bar;
}

formulate::KnownBar shipped_bar(const std::string& name, const oils::Library& library,
                                const std::optional<oils::Shelf>& shelf,
                                const targets::Written& written) {
  const auto* shipped = targets::find_yardstick(name);
  if (shipped == nullptr) {
    written.fail("'" + name + "' is no plain bar we know",
                 "write the blend under 'compared-with:'");
  }
  std::vector<std::pair<const oils::Oil*, double>> parts;
  for (const auto& [oil, share] : shipped->blend) {
    const oils::Oil* found = library.find(oil);
    if (found == nullptr) {
      written.fail("the plain bar '" + name + "' needs " + oil + ", which the library lacks",
                   "take it back into the library");
    }
    parts.emplace_back(found, share);
  }
  formulate::KnownBar bar = from_parts(name, parts, shelf);
  bar.settings = shipped->settings;
  return bar;
}

}  // namespace

std::string shelf_file_of_brief(const std::string& path) {
  const auto root = oils::yaml::Document::from_file(path).root();
  if (!root.is_map()) return {};
  auto shelf = root.get("shelf");
  const auto workshop = targets::workshop_beside(path);
  if (!shelf && workshop && workshop->shelf) shelf = workshop->shelf->written.node;
  if (!shelf || !shelf->is_scalar()) return {};
  const auto folder = std::filesystem::path(path).parent_path();
  const auto file = folder / shelf->text();
  std::error_code none;
  if (!std::filesystem::is_regular_file(file, none)) {
    shelf->fail("there is no shelf file '" + file.string() + "'",
                "the name is looked up from the brief's own folder");
  }
  return file.string();
}

std::optional<oils::Shelf> shelf_of_brief(const std::string& path, const oils::Library& library) {
  const std::string file = shelf_file_of_brief(path);
  if (file.empty()) return std::nullopt;
  std::error_code none;
  if (!std::filesystem::exists(oils::journal_path(oils::followed(file)), none)) {
    return oils::read_shelf(file, library);
  }
  // What other planned batches count on is kept back.
  const auto root = oils::yaml::Document::from_file(path).root();
  std::string own;
  for (const char* key : {"batch", "name"}) {
    if (const auto name = root.get(key); name && name->is_scalar() && own.empty())
      own = name->text();
  }
  return oils::Books::open(file, library, oils::Books::Mode::look).free_shelf(own);
}

formulate::Candidates candidates_for(const targets::Brief& brief, const oils::Library& library,
                                     const std::optional<oils::Shelf>& shelf) {
  formulate::Candidates out;
  out.memo = std::make_shared<formulate::SureMemo>();
  if (shelf) out.currency = shelf->currency;
  if (brief.oils_from.price_list) {
    brief.oils_from.price_list->written.fail("a price list cannot be searched by 'blend'",
                                             "name the oils, or use 'shelf' or 'library'");
  }
  if (!brief.oils_from.shelves.empty()) {
    brief.oils_from.written.fail("the oils come from another shelf file",
                                 "name it with 'shelf: " + brief.oils_from.shelves[0].written.text +
                                     "' and write 'oils-from: shelf'");
  }
  if (brief.oils_from.shelf && !shelf) {
    brief.oils_from.written.fail("the oils come from the shelf, but the brief names no shelf file",
                                 "add 'shelf: my-shelf.yaml'");
  }
  const auto known = [&](const std::string& name) {
    return std::any_of(out.oils.begin(), out.oils.end(),
                       [&](const formulate::Candidate& c) { return c.oil.name == name; });
  };
  if (brief.oils_from.shelf) {
    for (const auto& holding : shelf->holdings()) {
      formulate::Candidate candidate = from_shelf(holding, brief.rules, library);
      if (*candidate.stock_grams > 0) {
        out.oils.push_back(std::move(candidate));
      } else {  // a line without stock still tells the price of an oil named below
        out.left_out.push_back({holding.oil, "nothing left to use"});
      }
    }
  }
  const bool priced = wants_price(brief);
  const auto add = [&](const oils::Oil& oil) {
    if (known(oil.name)) return;
    formulate::Candidate candidate = from_library(oil, shelf, library);
    if (priced && !candidate.price_per_kg) {
      out.left_out.push_back({oil.name, "no price is known"});
    } else {
      out.oils.push_back(std::move(candidate));
    }
  };
  for (const auto& named : brief.oils_from.named) add(*library.find(named.name));
  if (brief.oils_from.library) {
    for (const auto& oil : library.oils()) add(oil);
  }
  std::erase_if(out.oils, [&](const formulate::Candidate& candidate) {
    const bool unpriced = priced && !candidate.price_per_kg;
    if (unpriced) out.left_out.push_back({candidate.oil.name, "no price is known"});
    return unpriced;
  });
  std::erase_if(out.left_out, [&](const formulate::LeftOut& left) { return known(left.oil); });
  if (out.oils.empty()) {
    if (priced && !out.left_out.empty()) {
      brief.oils_from.written.fail(
          "what it costs is asked, and no oil here has a price",
          "Prices stand in a shelf file, 'price: 4.20 per kg' beside an oil: name it under "
          "'oils-from:' (after --from: --using my-shelf.yaml), or leave the cost out.");
    }
    brief.oils_from.written.fail("no oil is left to choose from",
                                 "Fill the shelf file, or say 'oils-from: library'.");
  }
  std::stable_sort(out.oils.begin(), out.oils.end(), comes_first);
  return out;
}

formulate::KnownBar known_bar(const targets::Yardstick& yardstick, const oils::Library& library,
                              const std::optional<oils::Shelf>& shelf) {
  if (!yardstick.blend) {
    return shipped_bar(yardstick.shipped, library, shelf, yardstick.written);
  }
  std::vector<std::pair<const oils::Oil*, double>> parts;
  for (const auto& part : yardstick.blend->oils) {
    parts.emplace_back(library.find(part.oil.name), part.share);
  }
  formulate::KnownBar bar = from_parts(yardstick.name, parts, shelf);
  bar.settings = settings(yardstick);
  return bar;
}

BlendJob read_blend_job(const std::string& path, const oils::Library& library) {
  const auto shelf = shelf_of_brief(path, library);
  const oils::Library& known = shelf ? shelf->library : library;
  return blend_job_of(targets::read_brief(path, known), known, shelf);
}

BlendJob blend_job_of(targets::Brief brief, const oils::Library& known,
                      const std::optional<oils::Shelf>& shelf) {
  BlendJob job{std::move(brief), {}, {}, targets::PropertyModel::embedded(), {}, {}};
  job.candidates = candidates_for(job.brief, known, shelf);
  if (job.brief.compared_with) job.yardstick = known_bar(*job.brief.compared_with, known, shelf);
  job.plain_bar = [known, shelf](const std::string& name, const targets::Written& written) {
    return shipped_bar(name, known, shelf, written);
  };
  return job;
}

}  // namespace barwright::jobs
