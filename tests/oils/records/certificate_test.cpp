#include "oils/records/certificate.hpp"

#include <catch2/catch.hpp>

#include "oils/records/certificate_reader.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using Weight = oils::Finding::Weight;

namespace {

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

oils::yaml::Node node(const std::string& text) {
  return oils::yaml::Document::from_text(text, "mine.yaml").root();
}

oils::Certificate read(const std::string& text) { return oils::read_certificate(node(text)); }

const oils::Finding* finding(const std::vector<oils::Finding>& all, const std::string& words) {
  for (const auto& one : all)
    if (one.text.find(words) != std::string::npos) return &one;
  return nullptr;
}

// High-oleic sunflower, an invented lot. Its acids give 188.9 mg KOH/g and 84.0 g I2/100 g.
const std::string kLot = R"(oil: high-oleic sunflower
units: {acids: "% of fatty acids", saponification-value: mg KOH/g, iodine-value: g I2/100 g}
sources: {mill: "Invented mill, invented certificate"}
acids:
  from: {source: mill, mark: certificate}
  C16:0: {typical: 4}
  C18:0: {typical: 3.5}
  C18:1: {typical: 84}
  C18:2: {typical: 7.5}
  C22:0: {typical: 1}
saponification-value: {typical: 189, source: mill, mark: certificate}
iodine-value: {typical: 84, source: mill, mark: certificate}
)";

std::string with(const std::string& from, const std::string& to) {
  std::string text = kLot;
  const auto at = text.find(from);
  INFO(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a certificate that agrees with itself raises no question") {
  const auto report = oils::check_record(node(kLot), library());
  CHECK(report.like == "high-oleic sunflower");
  CHECK(report.certificate.saponification_value == 189);
  for (const auto& one : report.findings) {
    INFO(one.text);
    CHECK(one.weight == Weight::note);
  }
  CHECK(finding(report.findings, "No unsaponifiable") != nullptr);
  CHECK_FALSE(report.whole);
  CHECK(finding(report.findings, "cannot join the library") != nullptr);
}

TEST_CASE("figures over 2 % from their own acids are questioned") {
  const auto report =
      oils::check_record(node(with("{typical: 189, ", "{typical: 193.5, ")), library());
  const auto* asked = finding(report.findings, "193.5");
  REQUIRE(asked != nullptr);
  CHECK(asked->weight == Weight::question);
  // 1.9 % off is let be: 189 against the 188.9 the acids give, then 192.4.
  CHECK(
      finding(
          oils::check_record(node(with("{typical: 189, ", "{typical: 192, ")), library()).findings,
          "192") == nullptr);
  const auto iodine =
      oils::check_record(node(with("{typical: 84, source", "{typical: 80, source")), library());
  REQUIRE(finding(iodine.findings, "80") != nullptr);
}

TEST_CASE("figures outside the published range are questioned with the range") {
  // CXS 210 high-oleic sunflower: 182 to 194 mg KOH/g, 78 to 90 g I2/100 g.
  const auto report =
      oils::check_record(node(with("{typical: 189, ", "{typical: 196, ")), library());
  const auto* asked = finding(report.findings, "182 to 194 published");
  REQUIRE(asked != nullptr);
  CHECK(asked->weight == Weight::question);
  CHECK_THAT(asked->text, Contains("codex-210, read"));
  // Taken for another oil, acids out of its range are noted.
  const auto other = oils::check_record(
      node(with("oil: high-oleic sunflower", "oil: yard sun\nlike: sunflower")), library());
  CHECK(other.like == "sunflower");
  CHECK(finding(other.findings, "C18:1 (oleic) 84 % is outside") != nullptr);
  CHECK(finding(other.findings, "118 to 141 published") != nullptr);
}

TEST_CASE("what a certificate lacks is said") {
  const auto report = oils::check_record(
      node(with("saponification-value: {typical: 189, source: mill, mark: certificate}\n", "")),
      library());
  CHECK(finding(report.findings, "No saponification value") != nullptr);
  const auto unknown = oils::check_record(
      node(with("oil: high-oleic sunflower", "oil: yard oil\nkind: triglyceride")), library());
  CHECK(unknown.like.empty());
  CHECK(finding(unknown.findings, "The library knows no 'yard oil'") != nullptr);
  const auto few =
      oils::check_record(node(with("C18:1: {typical: 84}", "C18:1: {typical: 74}")), library());
  REQUIRE_FALSE(few.findings.empty());
  CHECK(few.findings.front().weight == Weight::fault);
  CHECK_THAT(few.findings.front().text, Contains("sum to 90.0 %"));
}

TEST_CASE("a lot's certificate reads with its units") {
  const auto certificate = read(
      "ref: CA-17\nsaponification-value: 190.3 mg KOH/g\niodine-value: 82 g I2/100 g\n"
      "unsaponifiable: 0.9 %\nacids: {oleic: 80 %, C18:2: 20 %}\n");
  CHECK(certificate.reference == "CA-17");
  CHECK(certificate.saponification_value == 190.3);
  CHECK(certificate.iodine_value == 82);
  CHECK(*certificate.unsaponifiable == Approx(0.9));
  CHECK(certificate.acid_sum() == Approx(100));
  // The same fat counted in sodium hydroxide: times 56.106 / 39.997.
  CHECK(*read("saponification-value: 135 mg NaOH/g\n").saponification_value ==
        Approx(189.37).margin(0.005));
}

TEST_CASE("a lot's certificate is refused where it cannot be read") {
  CHECK_THROWS_WITH(read("saponification-value: 190\n"), Contains("no unit"));
  CHECK_THROWS_WITH(read("saponification-value: 0.19 g KOH/g\n"), Contains("mg KOH/g"));
  CHECK_THROWS_WITH(read("saponification-value: about 190 mg KOH/g\n"), Contains("not a figure"));
  CHECK_THROWS_WITH(read("saponification-value: 1.9.0 mg KOH/g\n"), Contains("not a number"));
  CHECK_THROWS_WITH(read("saponification-value: 1900 mg KOH/g\n"), Contains("cannot be"));
  CHECK_THROWS_WITH(read("iodine-value: 82 mg/g\n"), Contains("g I2/100 g"));
  CHECK_THROWS_WITH(read("acids: {C18:1: 70 %}\n"), Contains("sum to 70.0 %"));
  CHECK_THROWS_WITH(read("acids: {C18:1: 70 %, oleic: 30 %}\n"), Contains("second time"));
  CHECK_THROWS_WITH(read("acids: {C18:9: 100 %}\n"), Contains("no fatty acid"));
  CHECK_THROWS_WITH(read("ref: CA-17\n"), Contains("no figure"));
  CHECK_THROWS_WITH(read("sap: 190 mg KOH/g\n"), Contains("unknown key 'sap'"));
}

TEST_CASE("a certificate narrows the oil it is of") {
  const oils::Oil& olive = *library().find("olive");
  const auto narrowed =
      oils::certified(olive, read("ref: CA-17\nsaponification-value: 188.4 mg KOH/g\n"));
  CHECK(narrowed.saponification_value.span.low == 188.4);
  CHECK(narrowed.saponification_value.span.high == 188.4);
  CHECK(narrowed.saponification_value.mark == core::Mark::certificate);
  CHECK(narrowed.saponification_value.source == "certificate CA-17");
  CHECK_FALSE(narrowed.lye_figure_unread());
  CHECK(narrowed.iodine_value.span.low == olive.iodine_value.span.low);

  // Acids without a saponification value: the typical follows them, the published range stays.
  const auto acids = oils::certified(olive, read("acids: {C16:0: 20 %, C18:1: 79 %}\n"));
  CHECK(acids.acids[static_cast<std::size_t>(core::FattyAcid::C18_1)]->span.typical ==
        Approx(100 * 79.0 / 99));
  CHECK_FALSE(acids.acids[static_cast<std::size_t>(core::FattyAcid::C18_2)]);
  CHECK(acids.saponification_value.span.typical ==
        Approx(*oils::saponification_value_from_acids(acids)));
  CHECK(acids.saponification_value.span.low == olive.saponification_value.span.low);
  CHECK(acids.saponification_value.mark == core::Mark::computed);

  oils::Certificate bad;
  bad.acids[0] = 50;
  CHECK_THROWS_AS(oils::certified(olive, bad), std::invalid_argument);
}
