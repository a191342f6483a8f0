#include "targets/brief/manners_reader.hpp"

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/model/manners.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

constexpr const char* kForms =
    "Write 'none', 'without few oils', 'without few oils, vegan', or {few oils: no}.";

std::string manner_name(const Node& node, std::string_view text, std::size_t offset) {
  const std::string word = yaml::folded(text);
  std::vector<std::string> known;
  for (const Manner& manner : manners()) {
    if (yaml::folded(manner.name) == word) return manner.name;
    known.push_back(manner.name);
  }
  node.fail_at(offset, "'" + std::string(text) + "' is no manner of ours",
               yaml::nearest_and_known(text, known));
}

}  // namespace

MannersWish read_manners_wish(const Node& node) {
  MannersWish out;
  if (node.is_map()) {
    Block block(node);  // refuses a key that stands twice
    for (const auto& entry : block.take_rest())
      block.faults().of([&] {
        const std::string name = manner_name(entry.first, entry.first.text(), 0);
        if (!entry.second.yes_no()) out.off.push_back(name);
      });
    block.done();
    return out;
  }
  if (!node.is_scalar()) node.fail("the manners are a word or a block", kForms);
  const std::string text = node.text();
  const std::string words = yaml::folded(text);
  if (words == "none" || words == "no" || words == "off") {
    out.none = true;
    return out;
  }
  if (words == "all" || words == "yes") return out;
  constexpr std::string_view kWithout = "without ";
  if (!words.starts_with(kWithout)) node.fail("cannot read '" + text + "' here", kForms);
  std::size_t start = kWithout.size();
  while (start <= text.size()) {
    const std::size_t end = std::min(text.find(',', start), text.size());
    const std::string name = yaml::trimmed(std::string_view(text).substr(start, end - start));
    out.off.push_back(manner_name(node, name, start));
    start = end + 1;
  }
  return out;
}

}  // namespace barwright::targets
