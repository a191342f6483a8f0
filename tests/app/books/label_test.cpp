#include <catch2/catch.hpp>

#include "solver/app/books/command_label_entry.hpp"
#include "tests/app/books/shelf_yard.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using tests::complaint;
using tests::YardFolder;

TEST_CASE("label: both lists of a plain bar, and the plain note") {
  const YardFolder yard("label");
  const auto label =
      nlohmann::json::parse(yard.run({"label", "@yard-bar.yaml", "--bars", "20", "--json"}));
  CHECK(label["status"] == "listed");
  CHECK(
      label["as_added"]["line"] ==
      "Olea Europaea Fruit Oil, Aqua, Cocos Nucifera Oil, Sodium Hydroxide, Ricinus Communis Seed "
      "Oil");
  CHECK(
      label["as_saponified"]["line"] ==
      "Sodium Olivate, Sodium Cocoate, Aqua, Glycerin, Sodium Castorate, Olea Europaea Fruit Oil, "
      "Cocos Nucifera Oil, Ricinus Communis Seed Oil");
  double sum = 0;
  for (const auto& item : label["as_saponified"]["items"]) sum += item["percent"].get<double>();
  CHECK(sum == Approx(100));
  CHECK(label["net_weight_estimated"] == true);
  const std::string page = yard.run({"label", "@yard-bar.yaml", "--bars", "20"});
  CHECK_THAT(page, Contains("Labelling law is local") && Contains("1223/2009") && Contains("701"));
  CHECK_THAT(yard.run({"label", "@yard-bar.yaml", "--net", "100 g", "--custom", "us"}),
             Contains("Net Wt 3.5 oz (100 g)") && Contains("Water"));
}

TEST_CASE("label: names, allergens and words from the maker's entry") {
  const YardFolder yard("label-entry");
  yard.write(
      "salted.yaml",
      "name: salted bar\nblend: {olive: 60 %, coconut: 40 %}\noils: 1000 g\nlye:\n  superfat: 5 %\n"
      "  into-lye: [{salt: 10 g per kg oils}]\n");
  yard.write(
      "entry.yaml",
      "label: Salted, gentle\nnames: {salt: Maris Sal}\nwords: [no palm]\nnet-weight: 500 g\n");
  const auto label = nlohmann::json::parse(
      yard.run({"label", "@salted.yaml", "--with", "@entry.yaml", "--bars", "10", "--json"}));
  CHECK_THAT(label["as_added"]["line"].get<std::string>(), Contains("Maris Sal"));
  CHECK(label["claims"].size() == 2);  // "gentle" in the name, "no" in the words
  CHECK_THAT(label["remarks"].dump(), Contains("is more than the"));
  yard.write("wrong.yaml", "label: x\nnames: {sugar: Sucrose}\n");
  CHECK_THAT(complaint([&] {
               yard.run({"label", "@salted.yaml", "--with", "@wrong.yaml"});
             }),
             Contains("'sugar' under 'names' is nothing that goes into this bar"));
}

TEST_CASE("label: a slip in the entry is pointed at") {
  const auto says = [](const std::string& text) {
    return complaint([&] { app::read_label_entry_text(text, "entry.yaml"); });
  };
  CHECK_THAT(says("label: x\nallergens: {fir: {Limonene: 80 %, Linalool: 30 %}}\n"),
             Contains("entry.yaml:2:") && Contains("add to 110 %"));
  CHECK_THAT(says("label: x\ncustom: uk\n"), Contains("entry.yaml:2:9"));
  CHECK_THAT(says("label: x\nallergen: {}\n"), Contains("entry.yaml:2:1"));
  CHECK_THAT(says("names: {}\n"), Contains("label"));
}

TEST_CASE("label and make: a batch of two parts, its scent's allergens, its colours last") {
  const YardFolder yard("label-batch");
  // Invented, scent and figures too.
  yard.write("slip.yaml", R"(batch: slip
make: {bars: 20, each: 100 g, weighed: cut}
shelf: yard-shelf.yaml
parts:
  body:
    blend: {olive: 70 %, coconut: 30 %}
    superfat: 5 %
    colours: [{name: chalk, share: 100 %, with: [{titanium dioxide: 40 g}]}]
    scent:
      - name: fir and smoke
        dose: 20 g per kg oils
        certificate: {file: fir.pdf, category: 9, most-in-finished-bar: 3 %}
  topping:
    method: thick trace
    blend: {olive: 50 %, coconut: 50 %}
    superfat: 6 %
    size: {per-bar: 15 g}
after: {cure: 6 weeks}
scale: {oils: 1 g, lye: 0.1 g}
)");
  yard.write("entry.yaml",
             "label: slip\nallergens: {fir and smoke: {Limonene: 8 %, Eugenol: 0.01 %}}\n");
  const auto label =
      nlohmann::json::parse(yard.run({"label", "@slip.yaml", "--with", "@entry.yaml", "--json"}));
  const std::string line = label["as_saponified"]["line"];
  CHECK_THAT(line, Catch::Matchers::EndsWith("CI 77891") && Contains("Parfum") &&
                       Contains("Limonene") && !Contains("Eugenol"));
  CHECK_THAT(yard.run({"label", "@slip.yaml"}), Contains("no allergens are entered"));

  const auto made = yard.json("2027-02-13", {"make", "@slip.yaml"});
  CHECK(made["batch"] == "slip-2027-02-13");
  CHECK(made["ready"] == "2027-03-27");  // six weeks
  yard.on("2027-02-14", {"release", "slip", "--test", "body=pass, no zap"});
  CHECK(yard.json("2027-04-01", {"release", "slip"})["status"] == "on hold");
  yard.on("2027-02-15", {"release", "slip", "--test", "topping=pass, no zap"});
  CHECK(yard.json("2027-03-26", {"release", "slip"})["status"] == "curing");
  CHECK(yard.json("2027-03-27", {"release", "slip"})["status"] == "fit to sell");
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-16", {"make", "@slip.yaml", "--weighed", "olive=900 g"});
             }),
             Contains("stands in several parts: write \"body/olive=...\""));
}

TEST_CASE("label: what is not true of the bar is refused at its word, all of it at once") {
  const YardFolder yard("label-lie");
  yard.write("fat.yaml",
             "name: fat\nblend: {olive: 60 %, beef tallow: 30 %, palm: 10 %}\noils: 1000 g\n"
             "superfat: 5 %\n");
  yard.write("entry.yaml",
             "label: Fat, a vegan bar\nwords: [made by hand, palm-free,\n  no animal fat]\n");
  const std::string says = complaint([&] {
    yard.run({"label", "@fat.yaml", "--with", "@entry.yaml", "--bars", "10"});
  });
  CHECK_THAT(says, Contains("entry.yaml:1:8") &&
                       Contains("'Fat, a vegan bar' is not true of this bar. beef tallow comes "
                                "from animals.") &&
                       Contains("entry.yaml:2:23") && Contains("palm comes from the palm") &&
                       Contains("entry.yaml:3:3"));
  yard.write("entry.yaml", "label: Fat bar\nwords: [not vegan, with palm]\n");
  CHECK_NOTHROW(yard.run({"label", "@fat.yaml", "--with", "@entry.yaml", "--bars", "10"}));
  yard.write("plain.yaml",
             "name: plain\nblend: {olive: 60 %, coconut: 39 %, stearic acid: 1 %}\noils: 1000 g\n"
             "superfat: 5 %\n");
  yard.write("entry.yaml", "label: Plain bar\nwords: [vegan]\n");
  CHECK_THAT(yard.run({"label", "@plain.yaml", "--with", "@entry.yaml", "--bars", "10"}),
             Contains("'vegan': stearic acid may be what it denies"));
}

TEST_CASE("label: printed to size with a line to check it by") {
  const YardFolder yard("label-size");
  const std::string page = yard.path("label.html");
  const auto run = [&](const std::string& size) {
    return yard.run({"label", "@yard-bar.yaml", "--bars", "20", "--size", size, "--page", page});
  };
  CHECK_THAT(run("90 mm x 50 mm"), Contains("TO SIZE   90 x 50 mm") && Contains("50 mm below"));
  const std::string html = yard.read("label.html");
  CHECK_THAT(html, Contains(".label { width: 90mm; height: 50mm") &&
                       Contains(".check { width: 50mm;") && Contains("This line is 50 mm long") &&
                       Contains("Sodium Olivate"));
  CHECK_THAT(run("9 x 5 cm"), Contains("90 x 50 mm"));  // its own page is written anew
  CHECK_THAT(run("40 x 26 mm"), Contains("hard to read"));
  CHECK_THAT(complaint([&] { run("20 x 15 mm"); }), Contains("too small for these words"));
  CHECK_THAT(complaint([&] { run("9 cm"); }), Contains("is no size of a label"));
  CHECK_THAT(complaint([&] { run("9 x 5"); }), Contains("--size:"));
  CHECK_THAT(complaint([&] { run("900 x 500 mm"); }), Contains("cannot be printed here"));
  yard.write("label.html", "my own page");
  CHECK_THAT(complaint([&] { run("90 x 50 mm"); }), Contains("label.html"));
  CHECK(yard.read("label.html") == "my own page");
  CHECK_THAT(
      complaint([&] {
        yard.run({"label", "@yard-bar.yaml", "--bars", "20", "--page", yard.path("new.html")});
      }),
      Contains("--size"));
}

TEST_CASE("label: two that weigh nearly the same may stand either way, and that is said") {
  const YardFolder yard("label-near");
  yard.write("near.yaml",
             "name: near\nblend: {olive: 50.05 %, coconut: 49.95 %}\noils: 1000 g\nsuperfat: 5 %\n"
             "scale: {oils: 1 g, lye: 0.1 g}\n");
  CHECK_THAT(yard.run({"label", "@near.yaml", "--bars", "10"}),
             Contains("As added: Cocos Nucifera Oil (") && Contains("either may stand first"));
  const std::string plain = yard.run({"label", "@yard-bar.yaml", "--bars", "20"});
  CHECK_THAT(plain, Contains("As saponified: Aqua (8.0 to 14.1 %) and Glycerin (7.5 to 8.8 %)") &&
                        !Contains("Sodium Olivate (") && !Contains("Castor Seed Oil ("));
  const auto label =
      nlohmann::json::parse(yard.run({"label", "@yard-bar.yaml", "--bars", "20", "--json"}));
  for (const auto& item : label["as_saponified"]["items"]) {
    CHECK(item["percent_least"].get<double>() <= item["percent"].get<double>() + 1e-9);
    CHECK(item["percent_most"].get<double>() >= item["percent"].get<double>() - 1e-9);
  }
}
