#pragma once

#include <string>
#include <vector>

#include "report/table/table.hpp"
#include "shop/entities.hpp"

/// Plain lists on paper and as a spreadsheet, from one description.
namespace brakewright::report {

struct ListTable {
  std::string heading = {};
  std::string aside = {};  ///< beside the heading
  Table table = {};        ///< its `more` is not used: what does not fit goes on to the next sheet
};

struct ListDocument {
  std::string title = {};
  std::string subject = {};  ///< whom or what it is about
  std::string shop_name = {};
  std::vector<std::string> lines = {};   ///< below the subject
  std::vector<std::string> stamps = {};  ///< such as "demo data, invented"
  std::vector<ListTable> tables = {};
  shop::UtcTime made_at = {};
};

/// As many sheets as it takes, the first one filled first. The same document gives the same bytes.
/// @throws std::runtime_error  when the drawing library fails
std::string list_pdf(const ListDocument& document, shop::Paper paper);

/// One worksheet for each table, named after its heading. Every cell is text, never a formula; times of making are the
/// document's own.
/// @throws std::runtime_error  when the file cannot be made
std::string list_xlsx(const ListDocument& document);

}  // namespace brakewright::report
