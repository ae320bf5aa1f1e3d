#include "report/paper/paper.hpp"

#include <gtest/gtest.h>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <regex>
#include <sstream>

#include "core/input_error.hpp"
#include "report/sheet/sheet.hpp"
#include "tests/report/content_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using shop::Paper;
using test::output_of;
using test::text_of_pdf;
using test::words_outside;
using test::WrittenFile;

constexpr shop::UtcTime kMadeAt{std::chrono::milliseconds{1772624520250}};  // 2026-03-04 11:42:00.250 UTC

std::string pdf_info(const std::string& pdf) {
  const WrittenFile file(pdf, ".pdf");
  return output_of("TZ=UTC pdfinfo -isodates " + file.path());
}

TEST(Paper, PdfHasTheSizeOfItsPaperAndTwoSheetsOnceSomethingIsMeasured) {
  const std::string a4 = pdf_info(pdf_of(sample::job(8, 1, true, 2), Paper::a4, kMadeAt));
  EXPECT_TRUE(std::regex_search(a4, std::regex("Pages: +2\n"))) << a4;
  EXPECT_TRUE(std::regex_search(a4, std::regex("Page size: +595.27\\d* x 841.8\\d* pts \\(A4\\)"))) << a4;
  const std::string letter = pdf_info(pdf_of(sample::job(8, 1, true, 2), Paper::letter, kMadeAt));
  EXPECT_TRUE(std::regex_search(letter, std::regex("Page size: +612 x 792 pts \\(letter\\)"))) << letter;
}

TEST(Paper, JobWithoutReadingsMakesOneSheetThatSaysSo) {
  const Content empty = sample::empty_job();
  EXPECT_EQ(sheet_count(empty), 1);
  const std::string pdf = pdf_of(empty, Paper::a4, kMadeAt);
  EXPECT_TRUE(std::regex_search(pdf_info(pdf), std::regex("Pages: +1\n")));
  const std::string text = text_of_pdf(pdf);
  EXPECT_NE(text.find("Not measured"), std::string::npos);
  EXPECT_NE(text.find("sheet 1 of 1"), std::string::npos);
  EXPECT_NE(text.find("not sealed: this job is still open"), std::string::npos);
}

TEST(Paper, PdfIsDatedWithTheTimeGivenAndOwnedByTheShop) {
  const std::string info = pdf_info(pdf_of(sample::job(8, 1, true, 2), Paper::a4, kMadeAt));
  EXPECT_NE(info.find("2026-03-04T11:42:00Z"), std::string::npos) << info;
  EXPECT_NE(info.find("Lindenhof Training Workshop"), std::string::npos) << info;
  EXPECT_NE(info.find("Rotor record, job 1042"), std::string::npos) << info;
}

TEST(Paper, SameContentGivesTheSameBytesInEveryKindOfFile) {
  const Content content = sample::job(12, 2, true, 2);
  EXPECT_EQ(pdf_of(content, Paper::a4, kMadeAt), pdf_of(content, Paper::a4, kMadeAt));
  EXPECT_EQ(svg_of(content, Paper::a4, 2), svg_of(content, Paper::a4, 2));
  EXPECT_EQ(png_of(content, Paper::a4, 1, 60), png_of(content, Paper::a4, 1, 60));
  EXPECT_NE(pdf_of(content, Paper::a4, kMadeAt), pdf_of(content, Paper::a4, kMadeAt + std::chrono::hours(1)));
}

TEST(Paper, PdfTextHoldsTheFiguresTheVerdictAndTheWarnings) {
  const std::string text = text_of_pdf(pdf_of(sample::job(8, 1, true, 2), Paper::letter, kMadeAt));
  for (const char* words : {"22.842",
                            "22.571",
                            "0.024",
                            "0.019–0.026",
                            "0.993",
                            ">0.999",
                            "Cut",
                            "Left rotor",
                            "Right rotor",
                            "machine-to",
                            "22.200 mm",
                            "0.874 in",
                            "service information",
                            "cast on the part",
                            "Tomasz Brandt",
                            "Ida Sandvik",
                            "+0.001 mm",
                            "rust lip",
                            "practice",
                            "demo data, invented",
                            "sheet 2 of 2",
                            "1042",
                            "calls no part safe",
                            "never an air line",
                            "9f2c61d0a7b84e3f5c1d2e3f4a5b6c7d8e9f0a1b2c3d4e5f60718293a4b5c6d7",
                            "22.840",
                            "22.847"}) {
    EXPECT_NE(text.find(words), std::string::npos) << words;
  }
}

TEST(Paper, SvgIsWellFormedAndAsLargeAsThePaper) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    std::istringstream svg(svg_of(sample::job(24, 3, true, 2), paper, 1));
    boost::property_tree::ptree tree;
    boost::property_tree::read_xml(svg, tree);
    const double width = std::stod(tree.get<std::string>("svg.<xmlattr>.width"));
    const double height = std::stod(tree.get<std::string>("svg.<xmlattr>.height"));
    EXPECT_NEAR(width * 25.4 / 72, paper == Paper::a4 ? 210 : 215.9, 0.01);
    EXPECT_NEAR(height * 25.4 / 72, paper == Paper::a4 ? 297 : 279.4, 0.01);
  }
}

TEST(Paper, PngHasThePixelsThatItsResolutionAsksFor) {
  const std::string png = png_of(sample::job(8, 1, true, 1), Paper::a4, 1, 100);
  ASSERT_GT(png.size(), 24U);
  EXPECT_EQ(png.substr(1, 3), "PNG");
  const auto number = [&](std::size_t at) {
    int value = 0;
    for (std::size_t k = at; k < at + 4; ++k) value = value * 256 + static_cast<unsigned char>(png[k]);
    return value;
  };
  EXPECT_EQ(number(16), 827);   // 210 mm at 100 pixels per inch
  EXPECT_EQ(number(20), 1169);  // 297 mm
}

TEST(Paper, CodeOnTheSheetLeadsBackToTheJob) {
  const Content content = sample::job(8, 1, true, 2);
  const WrittenFile sheet(png_of(content, Paper::letter, 2, 200), ".png");
  const std::string read =
      output_of("zbarimg --quiet --raw -Sdisable -Sqrcode.enable " + sheet.path() + " 2>/dev/null");
  EXPECT_EQ(read, content.title.job_url + "\n");
}

TEST(Paper, AddressIsALinkInThePdf) {
  const Content content = sample::job(8, 1, true, 2);
  const WrittenFile file(pdf_of(content, Paper::a4, kMadeAt), ".pdf");
  EXPECT_NE(output_of("pdfinfo -url " + file.path()).find(content.title.job_url), std::string::npos);
}

TEST(Paper, NamesOfTenThousandCharactersStayInsideTheSheet) {
  Content content = sample::job(24, 3, true, 2);
  const std::string name(10'000, 'W');
  content.title.shop_name = content.title.vehicle = content.title.brought_by = content.title.complaint = name;
  content.title.worker = content.title.lathe = content.title.odometer = content.title.axle_and_sides = name;
  content.title.job_url = "http://192.168.4.20:8520/" + name;
  content.verdict.decided_by = content.verdict.decision_reason = content.verdict.decision_note = name;
  content.verdict.next = name;
  for (ReasonContent& reason : content.verdict.reasons) reason = {name, name};
  for (RotorContent& rotor : content.rotors) {
    rotor.description = rotor.cut_note = rotor.title = name;
    for (ReasonContent& line : rotor.check.lines) line = {name, name};
    for (auto& row : rotor.limits.rows) row.assign(row.size(), name);
  }
  for (ReasonContent& finding : content.findings) finding = {name, name};
  content.amendments.assign(40, {name, name});
  for (auto& row : content.instruments.rows) row.assign(row.size(), name);
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string pdf = pdf_of(content, paper, kMadeAt);
    EXPECT_EQ(words_outside(pdf), 0);
    EXPECT_TRUE(std::regex_search(pdf_info(pdf), std::regex("Pages: +2\n")));
    const std::string text = text_of_pdf(pdf);
    EXPECT_NE(text.find("…"), std::string::npos);
    EXPECT_NE(text.find("more, see the job"), std::string::npos);
    EXPECT_NE(text.find("sheet 2 of 2"), std::string::npos);
  }
}

TEST(Paper, MarkupInANameIsShownAsItStands) {
  Content content = sample::job(8, 1, true, 1);
  content.title.brought_by = "<b>Ann & Bo</b> <script>";
  content.title.vehicle = "<span size='9999'>van &amp; trailer";
  const std::string text = text_of_pdf(pdf_of(content, Paper::a4, kMadeAt));
  EXPECT_NE(text.find("<b>Ann & Bo</b> <script>"), std::string::npos);
  EXPECT_NE(text.find("<span size='9999'>van &amp; trailer"), std::string::npos);
}

TEST(Paper, BytesThatAreNoTextAndControlCharactersDrawAndDoNotBreakTheFile) {
  Content content = sample::job(8, 1, true, 1);
  content.title.vehicle = "broken \xff\xfe bytes\x01\nnext\tline";
  content.title.shop_name = std::string("nul\0inside", 10);
  const std::string text = text_of_pdf(pdf_of(content, Paper::a4, kMadeAt));
  EXPECT_NE(text.find("bytes"), std::string::npos);
  EXPECT_NE(text.find("next line"), std::string::npos);
  std::istringstream svg(svg_of(content, Paper::a4, 1));
  boost::property_tree::ptree tree;
  EXPECT_NO_THROW(boost::property_tree::read_xml(svg, tree));
}

TEST(Paper, NamesInOtherScriptsAreDrawnInTheirOwnLetters) {
  Content content = sample::job(8, 1, true, 1);
  content.title.brought_by = "Þórður Ægisson";
  content.title.worker = "Ольга";
  content.title.vehicle = "שלום";
  const std::string pdf = pdf_of(content, Paper::a4, kMadeAt);
  const std::string text = text_of_pdf(pdf);
  EXPECT_NE(text.find("Þórður Ægisson"), std::string::npos);
  EXPECT_NE(text.find("Ольга"), std::string::npos);
  EXPECT_NE(text.find("שלום"), std::string::npos);
}

TEST(Paper, RightToLeftNameKeepsToItsLabelsSideOfTheCell) {
  Content content = sample::job(8, 1, true, 1);
  content.title.vehicle = "שלום";
  const WrittenFile file(pdf_of(content, Paper::a4, kMadeAt), ".pdf");
  const std::string boxes = output_of("pdftotext -f 1 -l 1 -bbox " + file.path() + " -");
  std::smatch hit;
  ASSERT_TRUE(std::regex_search(boxes, hit, std::regex("<word xMin=\"([0-9.]+)\"[^>]*>ם<")));  // its last letter
  EXPECT_LT(std::stod(hit[1].str()) * 25.4 / 72, 20);  // the cell begins 18 mm from the edge
}

TEST(Paper, SheetsAndResolutionsThatDoNotExistAreRefused) {
  const Content content = sample::empty_job();
  const auto field_of = [](const auto& act) {
    try {
      act();
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return std::string("accepted");
  };
  EXPECT_EQ(field_of([&] { svg_of(content, Paper::a4, 0); }), "no_such_sheet sheet");
  EXPECT_EQ(field_of([&] { svg_of(content, Paper::a4, 2); }), "no_such_sheet sheet");
  EXPECT_EQ(field_of([&] { png_of(content, Paper::a4, 2, 96); }), "no_such_sheet sheet");
  EXPECT_EQ(field_of([&] { png_of(content, Paper::a4, 1, 35); }), "out_of_range dpi");
  EXPECT_EQ(field_of([&] { png_of(content, Paper::a4, 1, 601); }), "out_of_range dpi");
  EXPECT_EQ(field_of([&] { png_of(content, Paper::a4, 1, 36); }), "accepted");
}

}  // namespace
}  // namespace brakewright::report
