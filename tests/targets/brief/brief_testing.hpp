#pragma once

#include <string>
#include <vector>

#include "core/units/error.hpp"
#include "oils/records/library.hpp"

namespace barwright::testing {

/// A small library of our own: names, synonyms and tags; the figures do not matter to a reader.
inline const oils::Library& brief_library() {
  static const oils::Library library = [] {
    oils::Library built;
    for (const char* word : {"animal", "butter", "palm", "peanut", "tree nut", "vegan"})
      built.add_tag({word, "", {}});
    const auto add = [&](const std::string& name, std::vector<std::string> synonyms,
                         std::set<std::string> tags) {
      oils::Oil oil;
      oil.name = name;
      oil.synonyms = std::move(synonyms);
      oil.tags = std::move(tags);
      built.add(oil);
    };
    add("olive", {}, {"vegan"});
    add("coconut", {"coconut 76"}, {"vegan"});
    add("castor", {}, {"vegan"});
    add("high-oleic sunflower", {}, {"vegan"});
    add("rice bran", {}, {"vegan"});
    add("hazelnut", {}, {"tree nut", "vegan"});
    add("shea butter", {"shea"}, {"butter", "vegan"});
    add("mango butter", {}, {"butter", "vegan"});
    add("sal butter", {}, {"butter", "vegan"});
    add("palm", {}, {"palm", "vegan"});
    add("palm kernel", {}, {"palm", "vegan"});
    add("beef tallow", {}, {"animal"});
    add("mutton tallow", {}, {"animal"});
    built.add_ambiguous("tallow", {"beef tallow", "mutton tallow"});
    return built;
  }();
  return library;
}

inline std::string fixture(const std::string& name) {
  return std::string(BARWRIGHT_SOURCE_DIR) + "/tests/targets/fixtures/" + name;
}

/// Returns what an InputError of `read` says; empty when it reads.
template <typename Read>
std::string said(Read read) {
  try {
    read();
  } catch (const core::InputError& error) {
    return error.what();
  }
  return {};
}

}  // namespace barwright::testing
