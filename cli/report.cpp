#include <fmt/core.h>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "report/record.hpp"
#include "shop/assess.hpp"
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
  shop::Shop& shop = *opened.shop;
  const shop::JobFile file = job_named(shop, options.job);
  const auto settings = shop.settings();
  const auto people = shop.people();
  const auto instruments = shop.instruments();
  const auto lathes = shop.lathes();
  const auto zero_checks = shop.zero_checks(std::nullopt);
  const auto assessment = shop.assessment(file.job.id);
  const report::RecordInput input = {
      .file = file,
      .assessment = assessment,
      .people = people,
      .instruments = instruments,
      .lathes = lathes,
      .zero_checks = zero_checks,
      .settings = settings,
      .job_url = options.address.empty() ? "" : options.address + "/jobs/" + std::to_string(file.job.number),
      .printed_at = surroundings().now(),
      .local_clock = {},
      .pieces = shop.pieces(),
      .inserts = shop.inserts(),
      .taper_plates = shop.taper_plates()};
  const shop::Paper paper = options.paper.empty() ? settings.paper : shop::parse_word<shop::Paper>(options.paper);
  write_whole(options.to, drawn(options, input, paper));
  fmt::print("{}\n", options.to.string());
  return done;
}

}  // namespace brakewright::cli
