#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"
#include "shop/exchange/pieces_csv.hpp"
#include "store/open.hpp"

namespace {

using namespace brakewright::shop;

struct Undone {};

/// A pegboard with one piece, to which nothing stays added.
struct Pegboard {
  std::unique_ptr<Store> store = brakewright::store::open_in_memory();
  brakewright::Random dice{1};
  Shop shop{*store,
            {.now = [] { return UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)); },
             .random =
                 [this](auto bytes) {
                   for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice.below(256));
                 }}};
  Uuid by = shop.new_id();

  Pegboard() {
    by = shop.put_person({.id = by, .name = "Ada Stone"}, by).id;
    shop.put_piece({.id = shop.new_id(), .name = "nut", .kind = PieceKind::nut, .bore = {1}, .length = {1}}, by);
  }
};

}  // namespace

/// Any bytes are a table of pieces or refused; what was stored is written and read back without a change.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Pegboard pegboard;
  Shop& shop = pegboard.shop;
  try {
    shop.batch([&] {
      const auto report = import_pieces(shop, {reinterpret_cast<const char*>(data), size}, {}, pegboard.by);
      if (!report.stored && report.refused == 0) std::abort();
      if (report.stored) {
        const auto pieces = shop.pieces();
        const auto again =
            import_pieces(shop, pieces_csv(pieces), {.default_unit = brakewright::Unit::in}, pegboard.by);
        if (!again.stored || again.known != static_cast<std::int64_t>(pieces.size())) std::abort();
      }
      throw Undone{};
    });
  } catch (const Undone&) {
    return 0;
  } catch (const brakewright::InputError&) {
    return 0;
  }
  return 0;
}
