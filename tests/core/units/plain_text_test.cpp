#include "core/units/plain_text.hpp"

#include <catch2/catch.hpp>

#include "core/units/error.hpp"

using namespace barwright;
using namespace std::string_literals;

namespace {

std::string what_is_wrong(const std::string& text) {
  const auto unfit = core::first_unfit(text);
  return unfit ? std::to_string(unfit->at) + ": " + unfit->message() : "plain";
}

}  // namespace

// Well-formed and ill-formed sequences: The Unicode Standard, chapter 3, tables 3-6 and 3-7.
TEST_CASE("only well-formed UTF-8 is plain text") {
  for (const std::string text :
       {"", "olive 5 kg", "caf\xC3\xA9", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
        "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF", "\t\r\n", "\xC2\xA0", "\xD7\x90\xE2\x80\x8F"}) {
    CAPTURE(text);
    CHECK(what_is_wrong(text) == "plain");
  }
  for (const std::string text :
       {"\x80", "\xC0\xAF", "\xC1\xBF", "\xE0\x80\xAF", "\xE0\x9F\xBF", "\xED\xA0\x80",
        "\xED\xBF\xBF", "\xF0\x80\x80\xAF", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80",
        "\xF5\x80\x80\x80", "\xFF", "\xC3", "\xE2\x82", "\xC3("}) {
    CHECK(what_is_wrong("caf" + text) == "3: the line holds bytes that are not UTF-8");
    CHECK_FALSE(core::first_unfit(core::visible("caf" + text)));
  }
}

TEST_CASE("signs that are not seen are no plain text") {
  for (const std::string& text : {"\0"s, "\x01"s, "\x07"s, "\x1B"s, "\x7F"s, "\xC2\x80"s,
                                  "\xC2\x85"s, "\xC2\x9B"s, "\xE2\x80\xA8"s, "\xE2\x80\xA9"s}) {
    CHECK(what_is_wrong("a" + text) == "1: the line holds a control character");
  }
  for (const std::string text : {"\xE2\x80\xAA", "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x81\xA9"}) {
    CHECK(what_is_wrong("ab" + text) ==
          "2: the line holds a sign that turns the direction of writing");
  }
  CHECK(core::visible("a\x1B[31mb\xC2\x9B\r") == "a\\x1B[31mb\\u009B\\x0D");
  CHECK(core::visible("caf\xC3\xA9\tand\n") == "caf\xC3\xA9\tand\n");
}

TEST_CASE("text in UTF-16 is called by its name") {
  for (const std::string& text :
       {"\xFF\xFEn\0a\0"s, "\xFE\xFF\0n\0a"s, "n\0a\0m\0e\0"s, "\0n\0a\0m\0e"s}) {
    CHECK(what_is_wrong(text) == "0: this is text in UTF-16, not in UTF-8");
  }
}

TEST_CASE("an error shows what it quotes and never obeys it") {
  const core::InputError error({"bar\x1B.yaml", 1, 4}, "'\x1B[2J' is no oil", "Not \x07.",
                               "a \x1B[2J b");
  const std::string said = error.what();
  CHECK(said == "bar\\x1B.yaml:1:4: '\\x1B[2J' is no oil\n  a \\x1B[2J b\n        ^\n  Not \\x07.");
  CHECK(error.message() == "'\\x1B[2J' is no oil");
}

TEST_CASE("a long line is cut around the column, a long message in its middle") {
  std::string line(100000, 'x');
  line[50000] = '!';
  const core::InputError error({"a", 1, 50001}, "'" + std::string(100000, 'y') + "' is no oil", "r",
                               line);
  const std::string said = error.what();
  CHECK(said.size() < 1500);
  CHECK(said.find("is no oil") != std::string::npos);
  const std::size_t shown = said.find("\n  ... x") + 3;
  const std::size_t caret = said.find("^") - (said.find('\n', shown) + 3);
  CHECK(said[shown + caret] == '!');
  // Not in the middle of a letter.
  std::string letters;
  for (int i = 0; i < 5000; ++i) letters += "\xC3\xA9";
  for (const std::size_t most : {100U, 101U, 102U, 103U})
    CHECK_FALSE(core::first_unfit(core::shortened(letters, most)));
  CHECK_FALSE(core::first_unfit(core::InputError({"a", 1, 801}, letters, "", letters).what()));
}
