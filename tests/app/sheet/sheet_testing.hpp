#pragma once

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <string>

#include "running.hpp"

namespace barwright::tests {

inline Ran run_barwright(const std::string& arguments) { return run("barwright " + arguments); }

inline std::string towpath() {
  return std::string(BARWRIGHT_SOURCE_DIR) + "/examples/towpath-batch.yaml";
}

/// Writes the example with one text replaced and returns its path.
inline std::string changed(const std::string& name, const std::string& from,
                           const std::string& to) {
  std::string text = slurp(towpath());
  const auto at = text.find(from);
  if (at == std::string::npos) return "no such text: " + from;
  text.replace(at, from.size(), to);
  const std::string path = fresh_folder("sheet-" + name) + "/batch.yaml";
  spill(path, text);
  return path;
}

/// Runs of spaces and line ends as one space: the screen wraps.
inline std::string flat(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n';
    if (!space || (!out.empty() && out.back() != ' ')) out += space ? ' ' : c;
  }
  return out;
}

/// An invented batch of 1000 g of oils in one part, plainly printed; `body` are lines of the part.
inline std::string small_batch(const std::string& body, const std::string& top = {}) {
  return "batch: b\nmake: {oils: 1000 g, bars: 10}\nscale: {oils: 1 g, lye: 0.1 g}\nstart: 9:00\n"
         "lye: {alkali: sodium hydroxide, concentration: 31 %}\n" +
         top + "parts:\n  body:\n    blend: {olive: 70 %, coconut: 30 %}\n" + body;
}

inline Ran sheet_of_text(const std::string& text, const std::string& how = {}) {
  static const std::string folder = fresh_folder("sheet-of-text");
  spill(folder + "/b.yaml", text);
  return run("barwright sheet b.yaml " + how, folder);
}

/// Returns the sheet in one line of words.
inline std::string shown(const std::string& body, const std::string& top = {}) {
  const Ran ran = sheet_of_text(small_batch(body, top));
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  return flat(ran.out);
}

inline nlohmann::json read_sheet(const std::string& body, const std::string& top = {}) {
  const Ran ran = sheet_of_text(small_batch(body, top), "--json");
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  return nlohmann::json::parse(ran.out);
}

/// Returns what is said of a batch that cannot be read or made.
inline std::string refused_sheet(const std::string& body, const std::string& top = {}) {
  const Ran ran = sheet_of_text(small_batch(body, top));
  CHECK(ran.exit_code == 3);
  CHECK(ran.out.empty());
  return flat(ran.err);
}

}  // namespace barwright::tests
