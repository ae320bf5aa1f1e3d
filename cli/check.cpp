#include <fmt/core.h>

#include <iostream>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "report/carried/carried.hpp"
#include "server/records/record_check.hpp"
#include "store/proof.hpp"
#include "store/schema.hpp"
#include "store/sqlite.hpp"

namespace brakewright::cli {
namespace {

int check_pdf(const CheckOptions& options) {
  const std::string pdf = read_whole(options.pdf, report::kMostRecordBytes);
  const server::RecordCheck check = server::check_record(pdf, options.shop, {.knows_names = true});
  fmt::print("{}\n", server::word_of_answer(check.answer));
  for (const std::string& sentence : check.sentences) fmt::print("  {}\n", sentence);
  return check.answer == server::RecordAnswer::as_printed ? done : found_wrong;
}

}  // namespace

int check(const CheckOptions& options) {
  if (!std::filesystem::exists(options.shop)) {
    throw InputError("no_such_file", "shop",
                     "there is no shop in " + options.shop.string() + "; name another with --shop FILE");
  }
  if (!options.pdf.empty()) return check_pdf(options);
  {
    store::Database opened(options.shop, store::Access::read);
    store::refuse_newer(opened);
  }
  const store::Proof proof = store::prove(options.shop);
  for (const store::Proven& one : proof.proven) fmt::print("{:<9} {}\n", one.what, one.words);
  if (!proof.fault) {
    fmt::print("nothing wrong\n");
    return done;
  }
  std::cout.flush();
  std::cerr << "brakewright: " << options.shop.string() << ": " << *proof.fault << '\n';
  return found_wrong;
}

}  // namespace brakewright::cli
