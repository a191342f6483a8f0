#include <catch2/catch.hpp>

#include "oils/books/shelf.hpp"
#include "oils/books/shelf_reader.hpp"
#include "solver/recipe/jar_notes.hpp"
#include "tests/app/books/shelf_yard.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using tests::complaint;
using tests::YardFolder;

namespace {

/// The yard with a jar of lye, a scent and a colour received.
void stock(const YardFolder& yard, const std::string& purity = "99 %") {
  yard.on("2027-01-02", {"shelf", "receive", "caustic soda", "1 kg", "--purity", purity, "--lot",
                         "N-1", "--paid", "4.00 for 1 kg", "--supplier", "Millbank"});
  yard.on("2027-01-02", {"shelf", "receive", "titanium dioxide", "80 g", "--lot", "T-1", "--paid",
                         "6.00 for 80 g"});
}

// Invented recipe: titanium dioxide at trace, by way of a batch of one part.
const char* const kWhiteBatch = R"(batch: white
scale: {oils: 1 g, lye: 0.1 g}
make: {bars: 20, each: 100 g, weighed: cut}
lye: {alkali: sodium hydroxide, concentration: 33 %}
shelf: yard-shelf.yaml
parts:
  body:
    blend: {olive: 70 %, coconut: 20 %, castor: 10 %}
    superfat: 5 %
    colours: [{name: white, share: 100 %, with: [{titanium dioxide: 8 g}]}]
)";

}  // namespace

TEST_CASE("supplies: lye comes in, is drawn, traced, priced and ordered anew") {
  const YardFolder yard("supplies");
  stock(yard);
  CHECK_THAT(yard.read("yard-shelf.yaml"),
             Contains("{lye: sodium hydroxide, have: 1 kg, purity: \"99 %\", paid: 4.00 for 1 kg, "
                      "supplier: Millbank, lot: N-1}") &&
                 Contains("{colour: titanium dioxide, have: 80 g"));
  yard.on("2027-01-02", {"shelf", "reorder", "NaOH", "900 g"});
  yard.write("white.yaml", kWhiteBatch);
  const auto made = yard.json("2027-02-13", {"make", "@white.yaml"});
  bool lye = false, colour = false;
  for (const auto& draw : made["drawn"]) {
    lye = lye || (draw["what"] == "sodium hydroxide" && draw["lot"] == "N-1" &&
                  draw["kind"] == "lye" && draw["part"] == "body");
    colour = colour || (draw["what"] == "titanium dioxide" && draw["grams"] == 8);
  }
  CHECK(lye);
  CHECK(colour);
  CHECK_THAT(yard.read("yard-shelf.yaml"), Contains("have: 72 g"));
  CHECK_THAT(made["remarks"].dump(),
             Contains("Order sodium hydroxide:") && Contains("free, your level is 900 g"));
  CHECK_THAT(yard.on("2027-02-14", {"shelf", "trace", "N-1"}),
             Contains("lot N-1 of sodium hydroxide") && Contains("from Millbank") &&
                 Contains("white-2027-02-13"));
  CHECK_THAT(yard.on("2027-02-14", {"shelf"}), Contains("sodium hydroxide") && Contains("level"));
  CHECK_THAT(yard.on("2027-02-14", {"shelf", "list"}),
             Contains("sodium hydroxide, 99.0 %") && Contains("titanium dioxide (colour)"));
  const auto priced = yard.json("2027-02-14", {"price", "--batch", "white"});
  bool paid = false;
  for (const auto& line : priced["lines"])
    paid = paid ||
           (line["what"] == "sodium hydroxide" && line["kind"] == "lye" && line["known"] == true);
  CHECK(paid);
  CHECK_THAT(yard.run({"price", "@white.yaml", "--shelf", "@yard-shelf.yaml"}),
             Contains("at 4.00 per kg, lot N-1") && Contains("at 75.00 per kg, lot T-1"));
  yard.on("2027-02-14", {"make", "white", "--undo"});
  CHECK_THAT(yard.read("yard-shelf.yaml"), Contains("have: 1 kg") && Contains("have: 80 g"));
}

TEST_CASE("supplies: too little lye in stock is said, and nothing recorded") {
  const YardFolder yard("supplies-short");
  yard.on("2027-01-02", {"shelf", "receive", "sodium hydroxide", "100 g", "--lot", "N-1"});
  const std::string before = yard.read("yard-shelf.yaml");
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
             }),
             Contains("sodium hydroxide would be drawn below zero") && Contains("100 g there"));
  CHECK(yard.read("yard-shelf.yaml") == before);
  CHECK_THAT(yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--plan"}),
             Contains("sodium hydroxide: 100 g on the shelf") && Contains("short"));
}

TEST_CASE("supplies: the jar's purity is what the batch is judged by") {
  SECTION("a little weaker: more superfat, and said") {
    const YardFolder yard("supplies-weak");
    stock(yard, "98 %");
    const std::string page = yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
    CHECK_THAT(page, Contains("The sodium hydroxide of lot N-1 is 98.0 % pure, the recipe reckons "
                              "with 100.0 %.") &&
                         Contains("By the purity of the jar, the bar has 6.9 % superfat"));
  }
  SECTION("much weaker: outside the recipe's band, on hold until the maker says why") {
    const YardFolder yard("supplies-weaker");
    stock(yard, "85 %");
    const auto made = yard.json("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
    REQUIRE(made["held"].size() == 1);
    CHECK_THAT(made["held"][0]["why"].get<std::string>(),
               Contains("By the purity of the jar the superfat of the bar is"));
    CHECK(yard.json("2027-06-01",
                    {"release", "yard bar", "--test", "bar=pass, no zap"})["status"] == "on hold");
  }
  SECTION("stronger than the recipe reckons: free lye, and no word clears it") {
    const YardFolder yard("supplies-strong");
    stock(yard, "100 %");
    std::string text = tests::kYardBar;
    text.replace(text.find("superfat: 5 %\nconcentration: 33 %\n"), 34,
                 "lye: {superfat: 3 %, alkali: sodium hydroxide, "
                 "strength: {stated: 90 %, most: 91 %}, concentration: 33 %}\n");
    yard.write("weak.yaml", text);
    const auto made = yard.json("2027-02-13", {"make", "@weak.yaml", "--bars", "20"});
    REQUIRE(made["lye_heavy"].size() == 1);
    CHECK_THAT(made["lye_heavy"][0]["why"].get<std::string>(),
               Contains("by the purity of the jar its superfat is -"));
  }
}

TEST_CASE("supplies: one alkali is never drawn for the other") {
  const YardFolder yard("supplies-kind");
  const std::string in = yard.on("2027-01-02", {"shelf", "receive", "KOH", "1 kg", "--purity",
                                                "stated: 90 %, most: 91 %", "--lot", "K-1"});
  CHECK_THAT(in, Contains("Received: 1 kg of potassium hydroxide, 90.0 %, lot K-1."));
  const std::string page = yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
  CHECK_THAT(page, Contains("the only alkali on the shelf is potassium") &&
                       Contains("be sure which jar it was"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-14", {"make", "@yard-bar.yaml", "--bars", "20", "--as", "b",
                                      "--lot", "sodium hydroxide=K-1"});
             }),
             Contains("lot K-1 of potassium hydroxide is no sodium hydroxide"));
  CHECK_THAT(
      yard.on("2027-02-15", {"shelf", "receive", "sodium hydroxide", "1 kg", "--lot", "N-1"}),
      Contains("Its purity is not entered") && Contains("keep the two apart"));
  const auto says = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"shelf", "receive"});
    return complaint([&] { yard.on("2027-02-15", words); });
  };
  CHECK_THAT(says({"lye", "1 kg"}), Contains("does not say which alkali"));
  CHECK_THAT(says({"potassium hydroxide", "1 kg", "--lot", "K-2"}), Contains("without its purity"));
  CHECK_THAT(says({"fir and smoke", "1 kg"}), Contains("--as scent, colour, additive"));
  CHECK_THAT(says({"olive", "1 kg", "--purity", "99 %", "--lot", "O-2"}),
             Contains("--purity is an alkali's"));
  CHECK_THAT(says({"olive", "1 kg", "--as", "scent"}), Contains("'olive' is an oil"));
}

TEST_CASE("supplies: boxes are counted") {
  const YardFolder yard("supplies-boxes");
  CHECK_THAT(yard.on("2027-01-02", {"shelf", "receive", "kraft box", "200", "--as", "packaging",
                                    "--paid", "30.00 for 200", "--lot", "B-1"}),
             Contains("Received: 200 pieces of kraft box, lot B-1."));
  yard.on("2027-01-02", {"shelf", "reorder", "kraft box", "250"});
  CHECK_THAT(yard.on("2027-01-03", {"shelf"}), Contains("200 pieces  free, level  250 pieces"));
  CHECK_THAT(yard.on("2027-01-03", {"shelf", "list"}), Contains("0.15 each"));
  CHECK_THAT(yard.read("yard-shelf-journal.csv"), Contains("kraft box,B-1,,,200,30.00"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-01-03", {"shelf", "reorder", "kraft box", "2 kg"});
             }),
             Contains("no whole number of pieces"));
  const std::string page = yard.on(
      "2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20", "--packed-in", "kraft box=1"});
  CHECK_THAT(page, Contains("PACKAGING") && Contains("lot B-1  20 pieces"));
  CHECK_THAT(yard.read("yard-shelf.yaml"), Contains("kraft box, have: 180"));
  CHECK_THAT(yard.on("2027-02-14", {"make", "@yard-bar.yaml", "--bars", "20", "--as", "many",
                                    "--packed-in", "kraft box=10"}),
             Contains("kraft box: 200 for these bars, 180 there: 20 short."));
  CHECK_THAT(yard.run({"price", "--batch", "many", "--shelf", "@yard-shelf.yaml"}),
             Contains("180 at 0.15 each, lot B-1"));
  CHECK_THAT(yard.on("2027-02-14", {"shelf", "trace", "B-1"}), Contains("180 pieces"));
  yard.on("2027-02-15", {"make", "many", "--undo"});
  CHECK_THAT(yard.read("yard-shelf.yaml"), Contains("kraft box, have: 180"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-15", {"make", "@yard-bar.yaml", "--bars", "20", "--as", "x",
                                      "--packed-in", "kraft box=some"});
             }),
             Contains("does not say how many a bar"));
}

TEST_CASE("supplies: a workshop says once what its files need not say again") {
  const YardFolder yard("supplies-workshop");
  yard.write("workshop.yaml",
             "workshop: Weighbridge Yard\ncure: 9 weeks\nunits: oz\nshelf: yard-shelf.yaml\n"
             "packed-in: [kraft box]\n");
  yard.on("2027-01-02", {"shelf", "receive", "kraft box", "200", "--as", "packaging"});
  const std::string page = yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
  CHECK_THAT(page, Contains("20 pieces") && Contains("From workshop.yaml: cure.") &&
                       Contains("cured Sat 2027-04-17") && Contains("3 lb 1.384 oz"));
  const auto told = yard.json("2027-02-14", {"release", "yard bar"});
  CHECK(told["ready"] == "2027-04-17");  // the same day as the record says
  const auto made =
      yard.json("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20", "--as", "b"});
  CHECK(made["workshop"] == "From workshop.yaml: cure.");
  CHECK(made["ready"] == "2027-04-17");
  CHECK(made["drawn"][0]["grams"] == 1400);  // all arithmetic is in grams
}

TEST_CASE("supplies: a jar that is not what the recipe reckons with is told before it is weighed") {
  const auto lye = [](const char* written) {
    return oils::read_shelf_text(
        "shelf: Yard\nstock:\n  - {oil: olive, have: 1 kg}\n  - " + std::string(written) + "\n",
        "yard.yaml", ".", oils::Library::embedded());
  };
  core::Recipe recipe;
  recipe.alkali.push_back({core::Alkali::sodium_hydroxide, 100, 0.98, 100});
  const auto says = [&](const char* written) {
    std::string out;
    for (const auto& note : recipe::jar_notes(recipe, lye(written)))
      out += std::string(core::word(note.severity)) + ": " + note.text;
    return out;
  };
  CHECK(says("{lye: sodium hydroxide, have: 1 kg, purity: 98 %}").empty());
  CHECK_THAT(says("{lye: sodium hydroxide, have: 1 kg, purity: 99.5 %, lot: N-1}"),
             Contains("caution: The sodium hydroxide of lot N-1 is 99.5 % pure, this recipe "
                      "reckons with 98.0 %: with that jar less oil is left"));
  CHECK_THAT(says("{lye: sodium hydroxide, have: 1 kg, purity: 95 %}"), Contains("note: "));
  CHECK(says("{lye: sodium hydroxide, have: 0 kg, purity: 95 %}").empty());
  CHECK_THAT(says("{lye: potassium hydroxide, have: 1 kg, purity: 90 %}"),
             Contains("never put one in the place of the other"));
}
