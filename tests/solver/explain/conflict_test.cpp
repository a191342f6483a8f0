#include "solver/explain/conflict.hpp"

#include <catch2/catch.hpp>

#include "tests/solver/explain/explain_cases.hpp"

using namespace barwright::explain;
using namespace barwright::optimise;
using namespace barwright::cases;

namespace {

/// The wishes a blend meets, as bits.
unsigned met(const Problem& p, const Wishes& wishes, std::span<const int> w) {
  unsigned bits = 0;
  for (int wish : wish_ids(p, wishes)) {
    if (meets(p, wishes, wish, w)) bits |= 1U << static_cast<unsigned>(wish);
  }
  return bits;
}

unsigned bits_of(const std::vector<int>& wishes) {
  unsigned bits = 0;
  for (int wish : wishes) bits |= 1U << static_cast<unsigned>(wish);
  return bits;
}

}  // namespace

TEST_CASE("two wishes that want the same room collide, the third has no part in it") {
  // Oil 0 gives lather only, oil 1 hardness only, each 100. hardness >= 60 needs x1 >= 0.6,
  // lather >= 60 needs x0 >= 0.6: together 1.2 of 1. The cost limit of 5 holds for every blend.
  Problem p = plain(2, 10);
  p.limits = {at_most({2, 3}, 5, 7), at_least({0, 100}, 60, 3), at_least({100, 0}, 60, 4)};
  const Conflict c = find_conflict(p, {});
  CHECK(c.proved);
  CHECK(c.minimal);
  CHECK(c.smallest);
  CHECK(c.wishes == std::vector<int>{3, 4});
  CHECK(c.sides == std::vector<Side>{Side::floor, Side::floor});
}

TEST_CASE("of two colliding sets the one with fewer wishes is named") {
  // Wishes 0, 1, 2 ask for 40 % of three oils each (120 %). Wish 3 asks for 101 of a score that
  // ends at 100, and collides by itself; the deletion filter alone would stop at 0, 1, 2.
  Problem p = plain(3, 10);
  p.limits = {at_least({1, 0, 0}, 0.4, 0), at_least({0, 1, 0}, 0.4, 1), at_least({0, 0, 1}, 0.4, 2),
              at_least({100, 80, 50}, 101, 3)};
  const Conflict few = find_conflict(p, {});
  CHECK(few.wishes == std::vector<int>{3});
  CHECK(few.smallest);

  const Conflict filtered = find_conflict(p, {}, {}, {.most_searches = 0});
  CHECK(filtered.wishes == std::vector<int>{0, 1, 2});
  CHECK(filtered.minimal);
  CHECK_FALSE(filtered.smallest);
}

TEST_CASE("only the side of a range that collides is blamed") {
  // x0 between 0.5 and 0.9, and oil 1 at least 0.7: the floor 0.5 collides, the ceiling does not.
  Problem p = plain(2, 10);
  p.limits = {{linear({1, 0}), 0.5, 0.9, 0}, at_least({0, 1}, 0.7, 1)};
  const Conflict c = find_conflict(p, {});
  CHECK(c.wishes == std::vector<int>{0, 1});
  CHECK(c.sides == std::vector<Side>{Side::floor, Side::floor});
}

TEST_CASE("house rules a maker stated can be part of a collision") {
  // At most one oil (wish 5), stock of oil 0 is 60 % (wish 6), of oil 1 it is 70 % (wish 7): one
  // oil would have to be 100 %. All three take part; without any one of them there is a blend.
  Problem p = plain(2, 10);
  p.most_oils = 1;
  p.oils[0].most = 6;
  p.oils[1].most = 7;
  Wishes wishes;
  wishes.rules = {{5, RuleKind::most_oils, -1, 1},
                  {6, RuleKind::oil_most, 0, 6},
                  {7, RuleKind::oil_most, 1, 7}};
  const Conflict c = find_conflict(p, wishes);
  CHECK(c.wishes == std::vector<int>{5, 6, 7});
  CHECK(c.minimal);
  CHECK(c.sides == std::vector<Side>(3, Side::rule));
}

TEST_CASE("a bound falls back to the next rule when its wish is dropped") {
  Problem p = plain(2, 10);
  p.oils[0] = {4, 3, true};
  Wishes wishes;
  wishes.rules = {{1, RuleKind::oil_most, 0, 3},
                  {-1, RuleKind::oil_most, 0, 5},
                  {2, RuleKind::oil_least, 0, 4},
                  {-1, RuleKind::oil_least, 0, 2},
                  {3, RuleKind::oil_must, 0, 1}};
  const int cap = 1;
  CHECK(without(p, wishes, std::span(&cap, 1)).oils[0].most == 5);
  const int least = 2;
  CHECK(without(p, wishes, std::span(&least, 1)).oils[0].least == 2);
  const int must = 3;
  CHECK_FALSE(without(p, wishes, std::span(&must, 1)).oils[0].must);
  CHECK(without(p, wishes, {}).oils[0].must);
}

TEST_CASE("a range turned upside down collides with itself, without a search") {
  Problem p = plain(40, 100);
  p.limits = {{linear(std::vector<double>(40, 1)), 0.7, 0.6, 8}};
  for (std::size_t i = 0; i < 40; ++i) p.limits[0].form.linear[i] = static_cast<double>(i % 7) / 7;
  const Answer none = search(p, {});
  CHECK(none.status == Status::infeasible);
  CHECK(none.stats.nodes == 0);
  CHECK(find_conflict(p, {}).wishes == std::vector<int>{8});
}

TEST_CASE("when the house alone leaves nothing no wish is blamed") {
  Problem p = plain(2, 10);
  p.limits = {at_least({1, 0}, 0.6, -1), at_least({0, 1}, 0.6, -1), at_least({1, 1}, 0.5, 4)};
  const Conflict c = find_conflict(p, {});
  CHECK(c.proved);
  CHECK(c.wishes.empty());
}

TEST_CASE("nothing is called a collision that was not proved one") {
  Problem p = plain(2, 10);
  p.limits = {at_least({1, 0}, 0.4, 0), at_least({0, 1}, 0.4, 1)};
  const Conflict fits = find_conflict(p, {});
  CHECK_FALSE(fits.proved);
  CHECK_FALSE(fits.reason.empty());

  p.limits[0].low = 0.7;
  SearchOptions late;
  late.deadline = std::chrono::steady_clock::now() - std::chrono::seconds(1);
  const Conflict unknown = find_conflict(p, {}, late);
  CHECK_FALSE(unknown.proved);
  CHECK(unknown.wishes.empty());
  CHECK_FALSE(unknown.reason.empty());
}

TEST_CASE("a filter cut short hands back what is proved, and says what is not") {
  Problem p = plain(3, 10);
  p.limits = {at_least({1, 0, 0}, 0.6, 0), at_least({0, 1, 0}, 0.6, 1), at_least({0, 0, 1}, 0, 2)};
  const Conflict c = find_conflict(p, {}, {}, {.most_searches = 0, .most_filtering = 0});
  CHECK(c.proved);
  CHECK_FALSE(c.minimal);
  CHECK_FALSE(c.smallest);
  CHECK(c.wishes == std::vector<int>{0, 1, 2});
}

TEST_CASE("hitting sets are smallest") {
  CHECK(hitting_set({}, 3) == std::vector<int>{});
  CHECK(hitting_set({{1, 2}, {2, 3}}, 3) == std::vector<int>{2});
  CHECK(hitting_set({{1, 2}, {3, 4}}, 1) == std::nullopt);
  CHECK(hitting_set({{}}, 5) == std::nullopt);
}

TEST_CASE("on random problems the set is colliding, minimal and smallest by enumeration") {
  Dice dice(20260101);
  int collisions = 0;
  for (int round = 0; round < 250; ++round) {
    Problem p = random_problem(dice, 4, 8, 5, 1);
    p.most_oils = 1 + dice.below(3);
    Wishes wishes;
    wishes.rules = {{5, RuleKind::most_oils, -1, p.most_oils}};
    std::vector<unsigned> blends;
    every_blend(4, 8, [&](std::span<const int> w) { blends.push_back(met(p, wishes, w)); });
    const auto collide = [&](unsigned set) {
      for (unsigned blend : blends) {
        if ((set & ~blend) == 0) return false;
      }
      return true;
    };
    const Conflict c = find_conflict(p, wishes);
    CHECK(c.proved == collide(0x3fU));
    if (!c.proved) continue;
    ++collisions;
    const unsigned set = bits_of(c.wishes);
    CHECK(collide(set));
    for (int wish : c.wishes) CHECK_FALSE(collide(set & ~(1U << static_cast<unsigned>(wish))));
    const Conflict filtered = find_conflict(p, wishes, {}, {.most_searches = 0});
    CHECK(filtered.minimal);
    CHECK(collide(bits_of(filtered.wishes)));
    for (int wish : filtered.wishes) {
      CHECK_FALSE(collide(bits_of(filtered.wishes) & ~(1U << static_cast<unsigned>(wish))));
    }
    std::size_t fewest = 6;
    for (unsigned other = 0; other < 64; ++other) {
      if (collide(other)) {
        fewest = std::min(fewest, static_cast<std::size_t>(__builtin_popcount(other)));
      }
    }
    CHECK(c.smallest);
    CHECK(c.wishes.size() == fewest);
  }
  CHECK(collisions > 50);
}
