#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "targets/files/oil_rules.hpp"
#include "targets/text/brief_block.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

/// Takes "at least 3 %", "at most 8 %", "3 to 8 %", "exactly 5 %", "none"; both ends may be joined
/// by "and" or a comma. Errors: least above most.
struct ShareRange {
  std::optional<double> least, most;
  bool exactly = false;
};
/// `offset`: where in the node's text the phrase starts.
ShareRange read_share_range(const oils::yaml::Node& node, std::size_t offset = 0);

/// How much of one oil: such a phrase, or {least:, most:, exactly:, always:}. A least share
/// says that the oil is in, unless "none or at least 5 %" or `always: no` stands there.
OilLimit read_oil_limit(const oils::yaml::Node& key, const oils::yaml::Node& value,
                        const Reading& reading);

/// Reads [mango butter, tag animal, palm].
void read_barred(const oils::yaml::Node& node, const Reading& reading, OilRules& rules);
/// Reads {butters: at least 15 %, vegan: yes, palm: no}.
void read_tag_rules(const oils::yaml::Node& node, const Reading& reading, OilRules& rules);
/// Reads the oil part of `limits`; the caller takes cost first.
void read_limits(Block& block, const Reading& reading, OilRules& rules);

/// Returns the library's tag for a word ("butters" is "butter"), or empty.
std::string find_tag(std::string_view word, const Reading& reading);
std::vector<std::string> all_tags(const Reading& reading);
/// Returns every tag that carries the word: "nut" finds "tree nut".
std::vector<std::string> tags_with_word(std::string_view word, const Reading& reading);

}  // namespace barwright::targets
