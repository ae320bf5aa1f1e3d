#include <algorithm>
#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "shop/exchange/readings_csv.hpp"
#include "shop/exchange/transfer.hpp"

namespace brakewright::cli {

int export_to(const ExportOptions& options) {
  if (options.format == "csv" && options.job.empty()) {
    throw InputError("missing", "job", "a table holds the readings of one job; name it with --job NUMBER");
  }
  auto opened = open_to_read(options.shop);
  shop::Shop& shop = *opened.shop;
  if (options.job.empty()) {
    write_whole(options.to, shop::export_shop(shop).dump(1) + "\n");
    return done;
  }
  const shop::JobFile file = job_named(shop, options.job);
  const std::string text = options.format == "csv" ? shop::readings_csv(file, shop.people(), shop.instruments())
                                                   : shop::export_job(shop, file.job.id).dump(1) + "\n";
  write_whole(options.to, text);
  return done;
}

}  // namespace brakewright::cli
