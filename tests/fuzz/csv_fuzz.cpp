#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/input_error.hpp"
#include "shop/exchange/csv.hpp"

/// Any bytes are a table or refused, and a table that was written is read back as it was.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace brakewright::shop;
  try {
    const CsvTable table = read_csv({reinterpret_cast<const char*>(data), size});
    for (const CsvRow& row : table.rows) {
      const CsvTable again = read_csv("sep=;\n" + csv_line(row.cells, ';'));
      if (again.rows.size() != 1 || again.rows[0].cells.size() != row.cells.size()) std::abort();
      for (std::size_t i = 0; i < row.cells.size(); ++i) {
        if (unguarded(again.rows[0].cells[i]) != row.cells[i]) std::abort();
      }
    }
  } catch (const brakewright::InputError&) {
    return 0;
  }
  return 0;
}
