#include <fmt/core.h>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "report/record.hpp"
#include "server/records/record_matter.hpp"
#include "shop/words.hpp"

namespace brakewright::cli {
namespace {

std::string drawn(const ReportOptions& options, const report::RecordInput& input, shop::Paper paper) {
  const std::string ending = options.to.extension().string();
  if (ending == ".pdf") return report::record_pdf(input, paper);
  if (ending == ".svg") return report::record_svg(input, paper, options.sheet);
  if (ending == ".png") return report::record_png(input, paper, options.sheet, options.dpi);
  throw InputError("out_of_range", "to", "the file's ending says what it becomes: .pdf, .svg or .png");
}

}  // namespace

int report(const ReportOptions& options) {
  auto opened = open_to_read(options.shop);
  const server::RecordMatter matter =
      server::record_matter(*opened.shop, job_named(*opened.shop, options.job).job.id,
                            {.printed_at = surroundings().now(), .address = options.address});
  const shop::Paper paper =
      options.paper.empty() ? matter.settings.paper : shop::parse_word<shop::Paper>(options.paper);
  write_whole(options.to, drawn(options, matter.input(), paper));
  fmt::print("{}\n", options.to.string());
  return done;
}

}  // namespace brakewright::cli
