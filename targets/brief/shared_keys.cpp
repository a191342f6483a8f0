#include "targets/brief/shared_keys.hpp"

#include "targets/brief/brief_reader.hpp"
#include "targets/brief/manners_reader.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_reader.hpp"
#include "targets/files/workshop.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

using oils::yaml::Node;

void read_rule_keys(Block& block, const Reading& reading, OilRules& rules,
                    std::vector<Wish>& wishes) {
  block.read("limits", [&](const Node& node) {
    Block limits(node);
    take_cost(limits, wishes);
    read_limits(limits, reading, rules);
  });
  block.read("not", [&](const Node& node) { read_barred(node, reading, rules); });
  block.read({"tag rules", "tags"},
             [&](const Node& node) { read_tag_rules(node, reading, rules); });
  block.read("manners", [&](const Node& node) { rules.manners = read_manners_wish(node); });
}

void read_batch_keys(Block& block, const Reading& reading, const BatchKeys& into) {
  block.read("make", [&](const Node& node) { into.make = read_make(node, reading.folder); });
  block.read("lye", [&](const Node& node) { into.lye = read_lye(node); });
  block.read("scale", [&](const Node& node) { into.scale = read_scale(node); });
  block.read({"sureness", "level"}, [&](const Node& node) { into.sureness = read_sureness(node); });
  block.faults().of([&] {
    const auto workshop = workshop_in(reading.folder);
    fill_from(workshop, into.lye);
    fill_from(workshop, into.scale);
  });
}

}  // namespace barwright::targets
