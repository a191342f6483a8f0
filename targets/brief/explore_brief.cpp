#include "targets/brief/explore_brief.hpp"

#include <cmath>
#include <filesystem>

#include "targets/brief/brief_reader.hpp"
#include "targets/brief/brief_yardstick_reader.hpp"
#include "targets/brief/manners_reader.hpp"
#include "targets/brief/shared_keys.hpp"
#include "targets/brief/wish_reader.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/files/oil_rules_reader.hpp"

namespace barwright::targets {

using oils::yaml::Document;
using oils::yaml::Node;

namespace {

SalesPlan read_plan(const Node& node) {
  SalesPlan plan;
  plan.written = written(node);
  Block block(node);
  block.read("ready-for", [&](const Node& ready) { plan.ready_for = read_date(ready); });
  const bool counted =
      block.need("bars", [&](const Node& bars) { plan.bars = read_count(bars, "bars"); });
  block.read("in-batches-of", [&](const Node& batch) {
    plan.bars_per_batch = read_count(batch, "bars");
    if (counted && *plan.bars_per_batch > plan.bars)
      batch.fail("a batch of " + batch.text() + " bars is more than the plan's " +
                     std::to_string(plan.bars),
                 "Write a smaller batch, or more bars.");
  });
  block.done();
  return plan;
}

RangeBar read_range_bar(const Node& node, const Reading& reading, bool only_one) {
  RangeBar bar;
  bar.written = written(node);
  Block block(node);
  block.need("for", [&](const Node& what) { bar.what_for = plain_text(what); });
  if (only_one && !block.has("share-of-bars")) {
    bar.share_of_bars = 1;
  } else {
    block.need("share-of-bars", [&](const Node& share) {
      bar.share_of_bars = above_zero(fraction_within(share, 0, 1), share, "a share of the bars");
    });
  }
  block.read("compared-with", [&](const Node& yardstick) {
    bar.compared_with = read_yardstick(yardstick, reading);
  });
  read_goal_keys(block, reading, bar.goals);
  take_wishes(block, {"for", "share-of-bars", "compared-with", "best", "then"}, bar.wishes);
  block.done();
  if (bar.wishes.empty() && bar.goals.empty())
    node.fail("'" + bar.what_for + "' wishes for nothing",
              "Add a wish, such as 'lather: clearly more'.");
  check_yardstick(bar.compared_with.has_value(), bar.wishes, bar.goals);
  return bar;
}

int at_most(const Node& node) {
  const std::string remedy = "Write 'at most 7'.";
  Phrase phrase(node);
  if (!phrase.take_any({"at most", "no more than"})) {
    if (phrase.sees_number())
      phrase.fail("'" + node.text() + "' alone may mean at most or exactly", remedy);
    phrase.end({"at", "most", "no", "more", "than"}, remedy);
  }
  const double count = phrase.number();
  if (count < 0 || count > 1000 || count != static_cast<int>(count))
    node.fail("'" + node.text() + "' is no number of oils", remedy);
  phrase.end({}, remedy);
  return static_cast<int>(count);
}

void read_whole_range(const Node& node, ExploreBrief& brief) {
  Block block(node);
  block.read("different-oils", [&](const Node& oils) {
    brief.most_oils = at_most(oils);
    if (*brief.most_oils < 1) oils.fail("no oil at all makes no soap", "Write 'at most 7'.");
    brief.most_oils_written = {"different-oils: " + oils.text(), oils.place(), oils};
  });
  block.read("new-oils", [&](const Node& oils) {
    brief.most_new_oils = at_most(oils);
    brief.most_new_oils_written = {"new-oils: " + oils.text(), oils.place(), oils};
  });
  block.done();
}

Price whole_price(const Node& node) {
  Phrase phrase(node);
  const Price price = phrase.price();
  if (price.per != Per::all)
    node.fail("'" + node.text() + "' is not an amount in all", "Write it without 'per'.");
  phrase.end({}, "Write an amount, such as 14 EUR.");
  return price;
}

void read_money(const Node& node, ExploreBrief& brief) {
  MoneyLimits& money = brief.money;
  Block block(node);
  block.read("spend-now", [&](const Node& spend) {
    const std::string remedy = "Write 'at most 260 EUR delivered'.";
    Phrase phrase(spend);
    if (!phrase.take_any({"at most", "no more than"})) phrase.end({"at", "most"}, remedy);
    money.spend_now = phrase.price();
    if (money.spend_now->per != Per::all) spend.fail("what is spent now is one amount", remedy);
    money.delivered = phrase.take_any({"delivered", "with delivery"});
    phrase.end({"delivered"}, remedy);
    money.spend_written = {"spend-now: " + spend.text(), spend.place(), spend};
  });
  block.read({"oil-cost", "cost"},
             [&](const Node& cost) { read_cost("oil-cost", cost, brief.cost); });
  block.read("delivery", [&](const Node& delivery) {
    Block charges(delivery);
    const Node flat = charges.need("flat");
    money.delivery_flat = whole_price(flat);
    if (auto free = charges.take("free-over")) money.delivery_free_over = whole_price(*free);
    if (auto spread = charges.take("spread"))
      money.delivery_by_value = choice<bool>(*spread, {{"by weight", false}, {"by value", true}});
    charges.done();
  });
  block.read("packs", [&](const Node& packs) {
    money.whole_packs = choice<bool>(packs, {{"whole", true}, {"any weight", false}});
    if (!money.whole_packs)
      packs.fail("a plan buys whole packs only",
                 "Write 'packs: whole'; a supplier who sells any weight is a row with a "
                 "pack of 100 g in the price list.");
  });
  block.done();

  std::string currency;
  const auto one_currency = [&](const std::string& other) {
    if (other.empty()) return;
    if (!currency.empty() && currency != other)
      node.fail("two currencies, " + currency + " and " + other,
                "Write all money in one currency.");
    currency = other;
  };
  if (money.spend_now) one_currency(money.spend_now->currency);
  for (const Wish& wish : brief.cost) one_currency(wish.subject.currency);
  if (money.delivery_flat) one_currency(money.delivery_flat->currency);
  if (money.delivery_free_over) one_currency(money.delivery_free_over->currency);
  if (money.spend_now && !money.delivered && money.delivery_flat)
    money.spend_written.fail("'" + money.spend_written.text + "': with or without delivery?",
                             "The plan counts delivery as spent: add the word 'delivered'.");
}

void read_range(const Node& node, const Reading& reading, ExploreBrief& brief) {
  const auto items = list_of(node);
  double sum = 0;
  core::Faults::each(items, [&](const Node& item) {
    brief.range.push_back(read_range_bar(item, reading, items.size() == 1));
    sum += brief.range.back().share_of_bars;
  });
  if (std::abs(sum - 1) > 1e-9)
    node.fail("the shares of the bars add to " + percent(sum), "Make them add to 100 %.");
}

ExploreBrief read_root(const Node& root, const std::string& file, const Reading& reading) {
  ExploreBrief brief;
  brief.file = file;
  brief.folder = reading.folder;
  Block block(root);
  block.need("brief", [&](const Node& node) { brief.name = plain_text(node); });
  block.need("oils-from",
             [&](const Node& node) { brief.oils_from = read_oils_from(node, reading); });
  block.read("already-have",
             [&](const Node& node) { brief.already_have = read_oils_from(node, reading); });
  block.read("shelf", [&](const Node& node) { brief.shelf = file_name(node, reading); });
  block.read("sales-plan", [&](const Node& node) { brief.plan = read_plan(node); });
  block.need("want", [&](const Node& node) { read_range(node, reading, brief); });
  block.read("whole-range", [&](const Node& node) { read_whole_range(node, brief); });
  block.read("not", [&](const Node& node) { read_barred(node, reading, brief.rules); });
  block.read({"tag rules", "tags"},
             [&](const Node& node) { read_tag_rules(node, reading, brief.rules); });
  block.read("limits", [&](const Node& node) {
    Block limits(node);
    take_cost(limits, brief.cost);
    read_limits(limits, reading, brief.rules);
  });
  block.read("manners", [&](const Node& node) { brief.rules.manners = read_manners_wish(node); });
  block.read("money", [&](const Node& node) { read_money(node, brief); });
  read_batch_keys(block, reading, {brief.make, brief.lye, brief.scale, brief.sureness});
  block.read("curves", [&](const Node& node) {
    for (const Node& item : list_of(node))
      brief.curves.push_back({plain_text(item), item.place(), item});
  });
  block.done();
  return brief;
}

}  // namespace

ExploreBrief read_explore_brief(const std::string& path, const oils::Library& library) {
  const Document document = Document::from_file(path);
  return read_root(document.root(), path,
                   {library, std::filesystem::path(path).parent_path().string()});
}

ExploreBrief read_explore_brief_text(const std::string& text, const std::string& name,
                                     const std::string& folder, const oils::Library& library) {
  const Document document = Document::from_text(text, name);
  return read_root(document.root(), name, {library, folder});
}

}  // namespace barwright::targets
