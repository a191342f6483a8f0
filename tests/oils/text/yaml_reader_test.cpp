#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"

using barwright::core::InputError;
using namespace barwright::oils::yaml;

namespace {

Node root(const std::string& text) { return Document::from_text(text, "f.yaml").root(); }

template <typename Read>
std::string said(Read read) {
  try {
    read();
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}
std::string refused(const std::string& text) {
  return said([&] { root(text); });
}
/// The first line of an error: place and message.
std::string first(const std::string& text) { return text.substr(0, text.find('\n')); }

}  // namespace

TEST_CASE("a scalar, a list, a block and their places", "[yaml]") {
  const Node node =
      root("# remark\nname: yard bar\nlist: [a, 'b c', \"d\"]\nempty:\nsub: {x: 1}\n");
  CHECK(node.need("name").text() == "yard bar");
  CHECK(node.need("name").place().line == 2);
  CHECK(node.need("name").place().column == 7);
  CHECK(node.entries()[0].first.text() == "name");
  CHECK(node.entries()[0].first.place().column == 1);
  CHECK(node.need("list").items()[1].text() == "b c");
  CHECK(node.need("list").items()[1].is_quoted());
  CHECK(node.get("empty")->is_null());
  CHECK(node.need("sub").need("x").path() == "sub > x");
  CHECK_FALSE(node.get("nothing"));
  CHECK_FALSE(Node());
}

TEST_CASE("columns count bytes, and the caret stands below its word", "[yaml]") {
  const Node node = root("crème: {näme: x, b: y}\n");
  CHECK(said([&] { node.need("crème").need("b").fail("no", "Yes."); }) ==
        "f.yaml:1:23: no\n"
        "  crème: {näme: x, b: y}\n"
        "                      ^\n"
        "  Yes.\n"
        "  in crème > b");
}

TEST_CASE("a caret inside a text", "[yaml]") {
  CHECK(said([] { root("a: at least 5 abov\n").need("a").fail_at(11, "no", "Yes."); }) ==
        "f.yaml:1:15: no\n"
        "  a: at least 5 abov\n"
        "                ^\n"
        "  Yes.\n"
        "  in a");
  CHECK(first(said([] { root("a: 'one two'\n").need("a").fail_at(4, "no", ""); })) ==
        "f.yaml:1:9: no");
  // A text over two lines does not stand on its line as it reads: its start is shown.
  CHECK(first(said([] { root("a: one\n  two\n").need("a").fail_at(5, "no", ""); })) ==
        "f.yaml:1:4: no");
}

TEST_CASE("a duplicate key anywhere shows both places", "[yaml]") {
  CHECK(refused("a: 1\nb:\n  c: 1\n  d: 2\n  c: 3\n") ==
        "f.yaml:5:3: the key 'c' stands here a second time\n"
        "    c: 3\n"
        "    ^\n"
        "  It stands first at line 3, column 3: c: 1\n"
        "  Keep one of the two.");
  CHECK(refused("[{x: 1}, {y: 1, y: 2}]") != "");
  CHECK(refused("'a': 1\na: 2\n") != "");
  CHECK(refused("a: {c: 1}\nb: {c: 1}\n") == "");
}

TEST_CASE("unknown and missing keys", "[yaml]") {
  const Node node = root("superfatt: 5 %\n");
  CHECK(said([&] {
          node.only({"superfat", "blend"});
        }) ==
        "f.yaml:1:1: unknown key 'superfatt'\n"
        "  superfatt: 5 %\n"
        "  ^\n"
        "  Did you mean 'superfat'? Known here: superfat or blend.");
  CHECK(said([&] { node.need("superfat"); }) ==
        "f.yaml:1:1: missing key 'superfat'\n"
        "  superfatt: 5 %\n"
        "  ^\n"
        "  Here stands 'superfatt': is 'superfat' meant?");
  CHECK(first(said([] { root("a:\n").need("a"); })) == "f.yaml:1:1: 'a' has no value");
}

TEST_CASE("numbers", "[yaml]") {
  CHECK(root("a: 5.25\n").need("a").number() == 5.25);
  CHECK(root("a: +5\n").need("a").number() == 5);
  CHECK(root("a: -1e3\n").need("a").whole() == -1000);
  for (const char* text :
       {".nan", ".NaN", "nan", "NAN", ".inf", "-.inf", "+.Inf", "inf", "infinity", "1e999", "5 g",
        "", "five", "0x1F", "5,0", "1_000", "--5", "+-5"}) {
    INFO(text);
    CHECK(said([&] { root("a: '" + std::string(text) + "'\n").need("a").number(); }) != "");
    CHECK(said([&] { root("a: '" + std::string(text) + "'\n").need("a").fraction(); }) != "");
  }
  CHECK(first(said([] { root("a: .nan\n").need("a").grams(); })) ==
        "f.yaml:1:4: '.nan' is not a number that can be used");
  CHECK(said([] { root("a: 5.5\n").need("a").whole(); }) != "");
}

TEST_CASE("quantities in one unit", "[yaml]") {
  const Node node = root("{a: 1.5 kg, b: 5 %, c: 100 F, d: 2 in, e: 2 days, f: yes, g: No}\n");
  CHECK(node.need("a").grams() == Approx(1500));
  CHECK(node.need("b").fraction() == Approx(0.05));
  CHECK(node.need("c").celsius() == Approx(37.7777777778));
  CHECK(node.need("d").millimetres() == Approx(50.8));
  CHECK(node.need("e").hours() == Approx(48));
  CHECK(node.need("f").yes_no());
  CHECK_FALSE(node.need("g").yes_no());
  CHECK(said([&] { node.need("a").hours(); }) != "");
  CHECK(said([&] { node.need("a").yes_no(); }) != "");
  CHECK(said([&] { node.need("a").items(); }) != "");
  CHECK(said([&] { node.text(); }) != "");
}

TEST_CASE("what YAML allows and a maker's file does not", "[yaml]") {
  CHECK(first(refused("a: &x 1\nb: *x\n")) == "f.yaml:1:4: an anchor ('&name') stands here");
  CHECK(first(refused("a: !!str 1\n")) == "f.yaml:1:4: a type tag ('!name') stands here");
  CHECK(first(refused("a: 1\n---\nb: 2\n")) == "f.yaml:2:1: a second document starts here");
  CHECK(first(refused("a:\n\tb: 1\n")) == "f.yaml:2:1: a tab stands at the start of the line");
  CHECK(first(refused("a: 1\n  \tb: 1\n")) == "f.yaml:2:3: a tab stands at the start of the line");
  CHECK(first(refused("a: \x01\n")) == "f.yaml:1:4: the line holds a control character");
  // yaml-cpp takes a byte of 4 for the end of the file: what follows would be lost in silence.
  CHECK(first(refused("a: 1\n\x04\nb: 2\n")) == "f.yaml:2:1: the line holds a control character");
  CHECK(first(refused("a: \xff\n")) == "f.yaml:1:4: the line holds bytes that are not UTF-8");
  CHECK(first(refused("")) == "f.yaml: the file holds nothing");
  CHECK(first(refused("# remark\n")) == "f.yaml: the file holds nothing");
  CHECK(first(refused("---\n")) == "f.yaml: the file holds nothing");
  CHECK(refused("{[a]: 1}\n") != "");
  CHECK(refused(": 1\n") != "");
  CHECK(refused("a: [1, 2\n") != "");
  // yaml-cpp takes the end of the file for the end of a quote: what follows would be swallowed.
  CHECK(first(refused("a: 'x\nb: 2\n")) == "f.yaml:1:4: a quote opens here and never closes");
  CHECK(first(refused("a: \"x\\\"\n")) == "f.yaml:1:4: a quote opens here and never closes");
  CHECK(refused("a: 'it''s'\nb: \"x\\\"y\"\n") == "");
  CHECK(refused("a: b: c\n") != "");
  CHECK(refused(std::string(100000, '[')) != "");
  CHECK(refused("%YAML 9.9\n---\na: 1\n") != "");
}

TEST_CASE("line ends and byte order marks of any system", "[yaml]") {
  CHECK(root("\xEF\xBB\xBF"
             "a: 1\r\nb: 2\r\n")
            .need("b")
            .text() == "2");
  CHECK(root("\xEF\xBB\xBF"
             "a: 1\r\nb: 2\r\n")
            .need("a")
            .place()
            .column == 4);
  CHECK(root("---\na: 1\n").need("a").text() == "1");
  CHECK(root("a: 1\n...\n").need("a").text() == "1");
}

TEST_CASE("files", "[yaml]") {
  const auto folder = std::filesystem::temp_directory_path() / "barwright_yaml_test";
  std::filesystem::create_directories(folder);
  const std::string path = (folder / "a.yaml").string();
  std::ofstream(path) << "a: 1\n";
  CHECK(Document::from_file(path).root().need("a").place().file == path);
  CHECK(first(said([&] { Document::from_file(path + "x"); })) == path + "x: there is no such file");
  CHECK(first(said([&] { Document::from_file(folder.string()); })) ==
        folder.string() + ": this is a folder, not a file");
  std::filesystem::remove_all(folder);
}

TEST_CASE("the nearest name", "[yaml]") {
  CHECK(nearest_name("hardnes", {"lather", "hardness"}) == "hardness");
  CHECK(nearest_name("casotr", {"coconut", "castor"}) == "castor");  // two letters swapped
  CHECK(nearest_name("Rice-Bran", {"rice bran"}) == "rice bran");
  CHECK(nearest_name("soap", {"lather", "hardness"}).empty());
  CHECK(nearest_name("ab", {"cd"}).empty());
  CHECK(nearest_name("", {"cd"}).empty());
  CHECK(one_of({"a"}) == "a");
  CHECK(one_of({"a", "b", "c"}) == "a, b or c");
}
