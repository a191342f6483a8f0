// A refusal is never the answer while a blend of the allowed oils can be weighed safely.
#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "solver/explain/conflict.hpp"
#include "solver/jobs/blend_pot.hpp"
#include "solver/jobs/mannerly.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "tests/solver/jobs/brief_testing.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright;
using namespace barwright::jobs;
using barwright::testing::Uniform;
using optimise::Status;

namespace {

constexpr int kParts = 10;  // steps of 10 %

// Oils whose saponification values are far apart, wide, or in part only.
const std::vector<std::string> kOils = {
    "olive",       "coconut",    "castor",       "fractionated coconut",
    "beeswax",     "jojoba",     "lanolin",      "olive pomace",
    "shea butter", "babassu",    "stearic acid", "rapeseed",
    "meadowfoam",  "neem",       "cocoa butter", "palm kernel",
    "butter fat",  "wheat germ", "carnauba wax", "sunflower"};

struct Drawn {
  std::string brief;
  std::vector<std::string> least;  ///< oils of which at least 10 % is in
};

Drawn drawn(Uniform& draw) {
  Drawn out;
  std::vector<std::string> pool = kOils, names;
  for (int n = draw.whole(2, 4); n > 0; --n) {
    const auto at = std::size_t(draw.whole(0, int(pool.size()) - 1));
    names.push_back(pool[at]);
    pool.erase(pool.begin() + std::ptrdiff_t(at));
  }
  out.brief = fmt::format("brief: wide\noils-from: [{}]\n", fmt::join(names, ", "));
  const char* const wishes[] = {"hardness: at least {:.0f}", "lather: at least {:.0f}",
                                "conditioning: at least {:.0f}", "mildness: at least {:.0f}"};
  if (draw.whole(0, 2) > 0) {
    out.brief += "want:\n";
    const int first = draw.whole(0, 3);
    out.brief += "  " + fmt::format(fmt::runtime(wishes[first]), draw(15, 65)) + "\n";
    if (draw.whole(0, 1) > 0)
      out.brief += "  " + fmt::format(fmt::runtime(wishes[(first + 1) % 4]), draw(15, 55)) + "\n";
  }
  const char* const goals[] = {"most lather", "most hardness", "least quickness", "fewest oils"};
  out.brief += fmt::format("best: {}\nlimits: {{steps: 10 %", goals[draw.whole(0, 3)]);
  if (draw.whole(0, 3) == 0) {
    out.least.push_back(names[0]);
    out.brief += fmt::format(", {}: {{least: 10 %}}", names[0]);
  }
  out.brief += "}\n";
  const double aim = draw.whole(0, 14) / 2.0, floor = std::min(aim, draw.whole(0, 8) / 2.0);
  const bool potash = draw.whole(0, 4) == 0;
  out.brief += fmt::format(
      "lye: {{superfat: {{aim: {} %, never-below: {} %{}}}{}}}\n", aim, floor,
      draw.whole(0, 3) == 0 ? ", raise: no" : "",
      potash ? ", alkali: potassium hydroxide, strength: {stated: 90 %, most: 92 %}" : "");
  const char* const sizes[] = {"{oils: 300 g}",
                               "{oils: 1000 g}",
                               "{oils: 4 kg}",
                               "{bars: 4, each: 90 g, weighed: cut}",
                               "{bars: 12, each: 100 g, weighed: cured}",
                               "{bars: 60, each: 110 g, weighed: cured}"};
  out.brief += fmt::format("make: {}\n", sizes[draw.whole(0, 5)]);
  const char* const scales[] = {"{oils: 1 g, lye: 0.1 g}", "{oils: 1 g, lye: 1 g}",
                                "{oils: 2 g, lye: 1 g}", "{oils: 5 g, lye: 1 g}"};
  out.brief += fmt::format("scale: {}\n", scales[draw.whole(0, 3)]);
  return out;
}

// What weighing every blend one by one finds, each at its own size.
struct Every {
  int allowed = 0, may_be_safe = 0, safe = 0, kept = 0;
};

// No more of an oil than is usual, unless the brief says something of it, all that must be in, and
// no more wax than the lye engine takes.
bool is_allowed(const BlendJob& job, const Drawn& from, const std::vector<double>& shares) {
  double wax = 0;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const oils::Oil& oil = job.candidates.oils[i].oil;
    const bool named =
        std::find(from.least.begin(), from.least.end(), oil.name) != from.least.end();
    if (named && shares[i] == 0) return false;
    if (!named && oil.usual_most && shares[i] > oil.usual_most->span.typical / 100 + 1e-9)
      return false;
    if (core::saponifies_in_part(recipe::pot_fat({oil, 1}))) wax += shares[i];
  }
  return wax <= core::kMostWaxShare + 1e-9;
}

bool keeps_wishes(const BlendJob& job, const core::Recipe& recipe,
                  const std::vector<std::size_t>& used, double room) {
  std::vector<targets::Composition> parts;
  std::vector<double> shares;
  for (std::size_t line = 0; line < used.size(); ++line) {
    parts.push_back(job.candidates.oils[used[line]].composition);
    shares.push_back(recipe.oils.at(line).grams / recipe.oils_grams);
  }
  const auto mixed = targets::mix(parts, shares);
  return std::all_of(job.brief.wishes.begin(), job.brief.wishes.end(), [&](const auto& wish) {
    return job.model.value(wish.subject.property, mixed, recipe::settings_of(recipe)) >=
           wish.low->value + room;
  });
}

Every weigh_every(const BlendJob& job, const Drawn& from) {
  Every out;
  const auto& oils = job.candidates.oils;
  std::vector<double> shares(oils.size(), 0);
  const auto go = [&](const auto& self, std::size_t i, int left) -> void {
    if (i + 1 < oils.size()) {
      for (int w = 0; w <= left; ++w) {
        shares[i] = double(w) / kParts;
        self(self, i + 1, left - w);
      }
      return;
    }
    shares[i] = double(left) / kParts;
    if (!is_allowed(job, from, shares)) return;
    ++out.allowed;
    // The size of a question follows its answer, so what holds at one size alone is a chance.
    const double grams = wanted_oils(job, shares);
    int safe = 0, kept = 0;
    for (const double near : {0.98, 1.0, 1.02}) {
      try {
        const core::Recipe recipe = core::weigh(request_for(job, shares, near * grams));
        ++safe;
        kept += keeps_wishes(job, recipe, used_oils(shares), 0.02);
      } catch (const core::Refusal&) {  // not this one
      }
    }
    out.may_be_safe += safe > 0;
    out.safe += safe == 3;
    out.kept += kept == 3;
  };
  go(go, 0, kParts);
  return out;
}

bool says_why(const BlendResult& no) {
  std::vector<explain::Posed> posed;
  for (const auto& slice : no.slices) posed.push_back({&slice.problem, &slice.wishes});
  const explain::Conflict conflict = explain::find_conflict(posed);
  return conflict.proved && !conflict.wishes.empty();
}

}  // namespace

TEST_CASE("many oils and a scale that adds an error to each line: the size is no refusal",
          "[refusal]") {
  for (const bool coarse : {false, true}) {
    const std::string scale = coarse ? "{oils: 5 g, lye: 1 g}" : "{oils: 1 g, lye: 0.1 g}";
    for (const std::string make :
         {"{bars: 12, each: 100 g, weighed: cured}", "{bars: 12, each: 100 g, weighed: cut}",
          "{moulds: [{inside: 200 x 80 x 60 mm}]}", "{oils: 1000 g}"}) {
      const BlendJob job = barwright::testing::job_of(
          "brief: by hand\noils-from: [library]\n"
          "compared-with: {blend: {olive: 60 %, coconut: 30 %, castor: 10 %}}\n"
          "want: \"harder, lather no less, as kind to the skin\"\n"
          "best: nearest in feel\nmake: " +
          make + "\nscale: " + scale + "\n");
      CAPTURE(make, scale);
      optimise::Allowance allowance{200'000'000, nullptr};
      optimise::SearchOptions options;
      options.allowance = &allowance;
      const BlendResult result = find_mannerly(job, options).result;
      // On the coarse one few blends are safe, and it takes longer to find them.
      CHECK((result.has_blend() || (coarse && result.answer.status == Status::undecided)));
    }
  }
}

TEST_CASE("no blend is refused while one of the allowed is safe; a no names what collides",
          "[refusal]") {
  int blends = 0, noes = 0, refusals = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Uniform draw(seed);
    const Drawn from = drawn(draw);
    const BlendJob job = barwright::testing::job_of(from.brief);
    const Every every = weigh_every(job, from);
    CAPTURE(seed, from.brief, every.allowed, every.safe, every.kept);
    for (const bool mannerly : {false, true}) {
      CAPTURE(mannerly);
      try {
        BlendResult result = mannerly ? find_mannerly(job, {}).result : find_blend(job, {});
        if (result.has_blend()) {
          CHECK(every.may_be_safe > 0);
          ++blends;
          continue;
        }
        CHECK(every.kept == 0);
        CHECK((every.may_be_safe > 0 || every.allowed == 0 || !from.least.empty()));
        CHECK(result.answer.status == Status::infeasible);
        CHECK(says_why(result));
        ++noes;
      } catch (const core::Refusal& refusal) {
        INFO(refusal.what());
        CHECK(every.safe == 0);
        ++refusals;
      }
    }
  }
  CAPTURE(blends, noes, refusals);
  CHECK(blends > 100);
  CHECK(noes > 40);
  CHECK(refusals > 20);
}
