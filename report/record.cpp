#include "report/record.hpp"

#include "report/content/build.hpp"
#include "report/paper/paper.hpp"
#include "report/sheet/sheet.hpp"

namespace brakewright::report {

int sheets(const RecordInput& input, shop::Paper) { return sheet_count(content_of(input)); }

std::string record_pdf(const RecordInput& input, shop::Paper paper) {
  return pdf_of(content_of(input), paper, input.printed_at);
}

std::string record_svg(const RecordInput& input, shop::Paper paper, int sheet) {
  return svg_of(content_of(input), paper, sheet);
}

std::string record_png(const RecordInput& input, shop::Paper paper, int sheet, int dpi) {
  return png_of(content_of(input), paper, sheet, dpi);
}

}  // namespace brakewright::report
