// Each manner by itself: kept, giving way, put out of force by a word, or by an explicit limit.
#include <algorithm>
#include <catch2/catch.hpp>

#include "cases.hpp"
#include "solver/formulate/goal_search.hpp"

using namespace barwright;
using namespace barwright::tests;
using Catch::Matchers::Contains;
using jobs::MannerTold;

namespace {

jobs::Mannerly answered(const Case& plain, const std::string& more = {}) {
  return jobs::find_mannerly(job_of(plain, more), {});
}

double share(const jobs::Mannerly& found, const std::string& oil) {
  for (std::size_t i = 0; i < found.job->candidates.oils.size(); ++i)
    if (found.job->candidates.oils[i].oil.name == oil && found.result.has_blend())
      return 100.0 * found.result.answer.steps[i] / found.result.formulation.problem.steps;
  return 0;
}

const MannerTold* told(const jobs::Mannerly& found, const std::string& name) {
  for (const auto& one : found.manners)
    if (one.manner->name == name) return &one;
  return nullptr;
}

const std::string kOwn = "compared-with: {blend: {olive: 60 %, coconut: 30 %, castor: 10 %}}\n";
const std::string kMarket =
    "compared-with: {blend: {olive: 40 %, palm: 30 %, coconut: 25 %, castor: 5 %}}\n";

// How many oils of a bar are none of these.
int from_outside(const jobs::Mannerly& found, std::initializer_list<std::string_view> hers) {
  int out = 0;
  for (const std::size_t i : found.result.used)
    out +=
        std::find(hers.begin(), hers.end(), found.job->candidates.oils[i].oil.name) == hers.end();
  return out;
}

}  // namespace

TEST_CASE("every manner has a rule, a reason and a mark", "[manners]") {
  REQUIRE(targets::manners().size() >= 20);
  for (const auto& manner : targets::manners()) {
    INFO(manner.name);
    CHECK(!manner.reason.empty());
    CHECK((manner.mark.starts_with("published: ") || manner.mark == "common practice, no source"));
  }
  const oils::Library library = oils::Library::embedded();
  for (const auto& oil : targets::find_manner("everyday oils")->oils) {
    INFO(oil);
    CHECK(library.find(oil) != nullptr);
  }
}

TEST_CASE("with 'manners: none' the search is free, as it was", "[manners]") {
  for (const auto& one : cases()) {
    if (one.shelf == "library") continue;
    const auto job = job_of(one, "manners: none\n");
    // Both as far as the same work goes; a free search may take long to prove.
    const auto searched = [&](const auto& search) {
      optimise::Allowance work{200'000'000};
      optimise::SearchOptions options;
      options.allowance = &work;
      return search(options);
    };
    const auto found = searched([&](const auto& how) { return jobs::find_mannerly(job, how); });
    CHECK(found.manners.empty());
    CHECK(found.result.answer.steps ==
          searched([&](const auto& how) { return jobs::find_blend(job, how); }).answer.steps);
  }
}

TEST_CASE("a manner goes by its name, or where the brief says something of it itself",
          "[manners]") {
  const Case plain{"well-stocked", "best: most lather\n"};
  CHECK(told(answered(plain), "few oils") != nullptr);
  CHECK(told(answered(plain, "manners: without few oils\n"), "few oils") == nullptr);
  CHECK(told(answered(plain, "manners: {few oils: no}\n"), "few oils") == nullptr);
  CHECK(told(answered(plain, "limits: {oils: at most 8}\n"), "few oils") == nullptr);
  CHECK(told(answered(plain, "limits: {steps: 1 %}\n"), "round shares") == nullptr);
  CHECK(told(answered(plain), "lather") == nullptr);  // it is wished for
  const auto ours = answered(plain, "want: {C18:2 + C18:3a: at most 25 %}\n");
  CHECK(told(ours, "quick to turn") == nullptr);
}

TEST_CASE("explicit limits win, and what gives way for them is named", "[manners]") {
  const auto much =
      answered({"well-stocked", kMarket + "best: cheapest\n"}, "limits: {coconut: exactly 60 %}\n");
  CHECK(share(much, "coconut") == 60);
  REQUIRE(told(much, "short chains") != nullptr);
  CHECK(told(much, "short chains")->state == MannerTold::State::gave_way);
  const auto olive =
      answered({"well-stocked", "best: most mildness\n"}, "limits: {olive: at least 80 %}\n");
  CHECK(share(olive, "olive") >= 80);
  const auto dab =
      answered({"well-stocked", "best: most hardness\n"}, "limits: {shea butter: exactly 2 %}\n");
  CHECK(share(dab, "shea butter") == 2);
}

TEST_CASE("a least share says that the oil is in", "[manners]") {
  const Case plain{"well-stocked", kMarket + "best: cheapest\n"};
  CHECK(share(answered(plain, "limits: {castor: {least: 5 %}}\n"), "castor") >= 5);
  CHECK(share(answered(plain, "limits: {castor: none or at least 5 %}\n"), "castor") == 0);
}

TEST_CASE("shares stand in steps of five, or in the first finer that fits", "[manners]") {
  const auto coarse = answered({"well-stocked", "best: most lather\n"});
  CHECK(coarse.result.formulation.problem.steps == 20);
  const auto fine =
      answered({"well-stocked", "best: most lather\n"}, "limits: {shea butter: exactly 2 %}\n");
  CHECK(fine.result.formulation.problem.steps == 50);
  CHECK(told(fine, "round shares")->state == MannerTold::State::gave_way);
  CHECK_THAT(told(fine, "round shares")->rule, Contains("2 % steps"));
}

TEST_CASE("a coarse step that costs something says how much", "[manners]") {
  const auto found = answered({"vegan", "best: most mildness\n"});
  const auto* steps = told(found, "round shares");
  REQUIRE(steps != nullptr);
  REQUIRE(steps->price);
  CHECK(steps->state == MannerTold::State::bound);
  // As the same search in the usual steps says.
  const auto fine = answered({"vegan", "best: most mildness\n"}, "limits: {steps: 1 %}\n");
  const auto value = [](const jobs::Mannerly& one) {
    const auto& goal = one.result.formulation.problem.goals.front();
    return one.result.formulation.goals.front().shown(
        goal.at(one.result.formulation.problem.shares(one.result.answer.steps)));
  };
  CHECK(*steps->price == Approx(value(fine) - value(found)).margin(0.51));  // within a tie
  CHECK(*steps->price > 0);
}

TEST_CASE("out is out with the family", "[manners]") {
  const auto found =
      answered({"well-stocked", kMarket + "best: nearest in feel\n"}, "limits: {palm: none}\n");
  for (const char* oil : {"palm", "palm olein", "palm kernel"}) CHECK(share(found, oil) == 0);
  // Named by itself, it may take the place.
  const auto kernel = answered({"well-stocked", kMarket + "best: nearest in feel\n"},
                               "limits: {palm: none, palm kernel: at least 10 %}\n");
  CHECK(share(kernel, "palm kernel") >= 10);
}

TEST_CASE("an animal fat never enters a bar that has none, unless asked for", "[manners]") {
  const Case plain{"well-stocked", kOwn + "want: {hardness: no less}\nbest: cheapest\n"};
  CHECK(share(answered(plain), "lard") == 0);
  CHECK(share(answered(plain), "palm olein") == 0);
  CHECK(share(answered(plain, "limits: {lard: at most 40 %}\n"), "lard") > 0);
  CHECK(share(answered(plain, "tag rules: {animal: at most 30 %}\n"), "lard") > 0);
  CHECK(share(answered(plain, "manners: without vegan\n"), "lard") > 0);
}

TEST_CASE("a claim is kept even where it is all that stands in the way, and said to", "[manners]") {
  // Palm kernel would do; the bar in the hand is free of palm.
  const auto found =
      answered({"well-stocked",
                kOwn + "want: {hardness: at least 4 above, lather: no less}\nbest: cheapest\n"});
  CHECK(found.result.answer.status == optimise::Status::infeasible);
  CHECK(found.claim_in_the_way == "no palm");
}

TEST_CASE("what gives way is the mildest, before it is said that nothing fits", "[manners]") {
  const auto found = answered({"three",
                               "compared-with: all-olive\nwant: {lather: at least 8 above}\n"
                               "best: cheapest\n"});
  REQUIRE(found.result.has_blend());
  CHECK(std::any_of(found.manners.begin(), found.manners.end(), [](const MannerTold& one) {
    return one.state == MannerTold::State::gave_way;
  }));
  CHECK(told(found, "few oils")->state != MannerTold::State::gave_way);
  // The wishes alone collide: no manner is blamed.
  const auto no =
      answered({"three", "compared-with: all-olive\nwant: {lather: at least 60 above}\n"});
  CHECK(no.result.answer.status == optimise::Status::infeasible);
  CHECK(no.manners.empty());
  for (const auto& asked : no.result.formulation.asked)
    CHECK(targets::find_manner(asked.words) == nullptr);
}

TEST_CASE("without a bar in the hand a plain one of what is at hand stands for it", "[manners]") {
  CHECK(answered({"farm", "best: cheapest\n"}).held.bar.name == "plain farm bar");
  CHECK(answered({"vegan", "best: cheapest\n"}).held.bar.name == "plain bar without palm");
  CHECK(answered({"three", "best: cheapest\n"}).held.bar.name == "plain olive bar");
  CHECK(answered({"supermarket", "best: cheapest\n"}).held.bar.name == "plain kitchen bar");
  CHECK(answered({"well-stocked", "not: [palm]\nbest: cheapest\n"}).held.bar.name ==
        "plain bar without palm");
}

TEST_CASE("of the whole library only what is sold everywhere, unless named or needed",
          "[manners]") {
  const auto plain =
      answered({"library", kMarket + "want: {hardness: clearly more}\nbest: nearest in feel\n"});
  const auto& everyday = targets::find_manner("everyday oils")->oils;
  for (const std::size_t i : plain.result.used)
    CHECK(std::find(everyday.begin(), everyday.end(), plain.job->candidates.oils[i].oil.name) !=
          everyday.end());
  const auto named =
      answered({"library", kMarket + "want: {hardness: clearly more}\nbest: nearest in feel\n"},
               "limits: {kokum butter: at least 10 %}\n");
  CHECK(share(named, "kokum butter") >= 10);
}

TEST_CASE("with no shelf and no oils named, the oils are those of the bar in the hand",
          "[manners]") {
  const Case plain{"library",
                   kMarket + "want: \"harder, lather no less\"\nbest: nearest in feel\n"};
  const auto own = answered(plain);
  REQUIRE(own.result.has_blend());
  const auto from_hers = [](const jobs::Mannerly& found) {
    return from_outside(found, {"olive", "palm", "coconut", "castor"}) == 0;
  };
  CHECK(from_hers(own));
  REQUIRE(told(own, "own oils") != nullptr);
  CHECK(told(own, "own oils")->state == MannerTold::State::bound);
  CHECK(told(own, "own oils")->price.value_or(0) < 0);
  CHECK_THAT(told(own, "own oils")->rule, Contains("only oils that are in "));
  // It goes by its name, and where the brief says which oils.
  const auto off = answered(plain, "manners: without own oils\n");
  CHECK(told(off, "own oils") == nullptr);
  CHECK_FALSE(from_hers(off));
  CHECK(told(answered({"well-stocked", kMarket + "best: most lather\n"}), "own oils") == nullptr);
  CHECK(told(answered({"library", "best: most lather\n"}), "own oils") == nullptr);
}

TEST_CASE("her own oils give way to a wish they cannot keep, before any other manner",
          "[manners]") {
  const auto found =
      answered({"library", kOwn + "want: \"without coconut\"\nbest: nearest in feel\n"});
  REQUIRE(found.result.has_blend());
  REQUIRE(told(found, "own oils") != nullptr);
  CHECK(told(found, "own oils")->state == MannerTold::State::gave_way);
  for (const auto& one : found.manners) {
    INFO(one.manner->name);
    CHECK((one.manner->name == "own oils" || one.state != MannerTold::State::gave_way));
  }
  // An oil that is named is one of hers.
  const auto named = answered({"library", kMarket + "best: most lather\n"},
                              "limits: {shea butter: at least 5 %}\n");
  CHECK(share(named, "shea butter") >= 5);
  CHECK(told(named, "own oils")->state != MannerTold::State::gave_way);
}

TEST_CASE("what nobody wished for moves by one step more before several oils come in",
          "[manners]") {
  const auto found =
      answered({"library",
                "compared-with: {blend: {olive: 60 %, coconut: 25 %, castor: 15 %}}\n"
                "want: \"harder, milder\"\nbest: nearest in feel\n"});
  REQUIRE(found.result.has_blend());
  CHECK(from_outside(found, {"olive", "coconut", "castor"}) == 1);
  REQUIRE(told(found, "quickness") != nullptr);
  CHECK(told(found, "quickness")->state == MannerTold::State::gave_way);
  // What need not move stays: 'lather' at its strictest.
  REQUIRE(told(found, "lather") != nullptr);
  CHECK(told(found, "lather")->state != MannerTold::State::gave_way);
}

TEST_CASE("one oil from outside comes before several", "[manners]") {
  const auto found =
      answered({"library",
                "compared-with: {blend: {olive: 40 %, coconut: 30 %, palm: 25 %, castor: 5 %}}\n"
                "want: \"harder, lather no less\"\nbest: nearest in feel\n"});
  REQUIRE(found.result.has_blend());
  CHECK(from_outside(found, {"olive", "coconut", "palm", "castor"}) == 1);
  REQUIRE(told(found, "own oils") != nullptr);
  CHECK(told(found, "own oils")->state == MannerTold::State::gave_way);
  CHECK_FALSE(told(found, "own oils")->dropped);
  CHECK_THAT(told(found, "own oils")->rule, Contains(", and "));
}

TEST_CASE("a high floor of the superfat makes only those manners give way that it must",
          "[manners]") {
  // Steady oils alone keep 5.3 % at worst, and finer steps; manners that a blend of such oils keeps
  // stay, and none is priced by blends that the lye rules out.
  const Case plain{"well-stocked",
                   "compared-with: {blend: {olive: 40 %, coconut: 30 %, palm: 25 %, castor: 5 %}}\n"
                   "want: harder\nbest: most hardness\n"
                   "not: [cocoa butter, shea butter, rice bran, palm kernel]\n"};
  const auto found = answered(plain, "lye: {superfat: {aim: 8 %, never-below: 5.3 %}}\n");
  REQUIRE(found.result.has_blend());
  int gave_way = 0, priced = 0;
  for (const auto& one : found.manners) {
    gave_way += one.state == MannerTold::State::gave_way ? 1 : 0;
    priced += one.price ? 1 : 0;
  }
  CHECK(gave_way <= 4);
  CHECK(priced <= 6);
  for (const char* kept : {"quick to turn", "few oils", "short chains", "cuts in time", "thrift"}) {
    INFO(kept);
    REQUIRE(told(found, kept) != nullptr);
    CHECK(told(found, kept)->state != MannerTold::State::gave_way);
  }
}

TEST_CASE("the oil let in is the best of all that were tried, as each is weighed", "[manners]") {
  const std::string bar =
      "compared-with: {blend: {olive: 40 %, coconut: 30 %, palm: 25 %, castor: 5 %}}\n"
      "want: \"harder, lather no less\"\nbest: nearest in feel\n";
  const auto found = answered({"library", bar});
  REQUIRE(told(found, "own oils") != nullptr);
  const auto& own = *told(found, "own oils");
  CHECK(own.tried > 5);
  CHECK(own.had_to);  // her own oils alone leave no blend
  REQUIRE_FALSE(own.let_in.empty());
  const auto worth = [](const jobs::Mannerly& one) {
    const auto& problem = one.result.formulation.problem;
    return problem.goals.front().at(problem.shares(one.result.answer.steps));
  };
  const double best = worth(found);
  // Each alone beside hers, all other manners as they are.
  for (const auto& oil : targets::find_manner("everyday oils")->oils) {
    if (oil == own.let_in) continue;
    auto job = job_of({"library", bar});
    std::erase_if(job.candidates.oils, [&](const auto& one) {
      const std::string& name = one.oil.name;
      return name != oil && name != "olive" && name != "coconut" && name != "palm" &&
             name != "castor";
    });
    const auto other = jobs::find_mannerly(job, {});
    if (!other.result.has_blend()) continue;
    const bool same_rules =
        std::none_of(other.manners.begin(), other.manners.end(), [](const MannerTold& one) {
          return one.state == MannerTold::State::gave_way && one.manner->name != "own oils";
        });
    if (!same_rules) continue;
    INFO(oil);
    CHECK(best <= worth(other) + found.result.formulation.problem.goals.front().tie + 1e-6);
  }
}

TEST_CASE("a manner that went altogether says what keeping it would cost, or that it leaves none",
          "[manners]") {
  const auto found = answered({"library",
                               "compared-with: {blend: {olive: 100 %}}\n"
                               "want: \"harder, more lather\"\nbest: nearest in feel\n"});
  REQUIRE(found.result.has_blend());
  for (const auto& one : found.manners) {
    if (!one.dropped) continue;
    INFO(one.manner->name);
    CHECK((one.had_to || one.price));
  }
}
