#include "report/record.hpp"

#include <algorithm>
#include <utility>

#include "core/input_error.hpp"
#include "report/content/build.hpp"
#include "report/paper/paper.hpp"
#include "report/sheet/sheet.hpp"

namespace brakewright::report {

int sheets(const RecordInput& input, shop::Paper) { return sheet_count(content_of(input)); }

std::string record_pdf(const RecordInput& input, shop::Paper paper) {
  return pdf_of(content_of(input), paper, input.printed_at);
}

std::string vehicle_pdf(const std::vector<RecordInput>& inputs, shop::Paper paper) {
  if (inputs.empty()) throw InputError("missing", "jobs", "a record is of one job at least");
  std::vector<const RecordInput*> order;
  for (const RecordInput& input : inputs) order.push_back(&input);
  std::stable_sort(order.begin(), order.end(), [](const RecordInput* a, const RecordInput* b) {
    return std::pair(a->file.job.axle, a->file.job.number) < std::pair(b->file.job.axle, b->file.job.number);
  });
  std::vector<Content> contents;
  for (const RecordInput* input : order) contents.push_back(content_of(*input));
  return pdf_of(contents, paper, inputs.front().printed_at);
}

std::string record_svg(const RecordInput& input, shop::Paper paper, int sheet) {
  return svg_of(content_of(input), paper, sheet);
}

std::string record_png(const RecordInput& input, shop::Paper paper, int sheet, int dpi) {
  return png_of(content_of(input), paper, sheet, dpi);
}

}  // namespace brakewright::report
