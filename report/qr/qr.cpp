#include "report/qr/qr.hpp"

#include <qrencode.h>

#include <memory>

namespace brakewright::report {

bool draw_qr(Canvas& canvas, Point corner, double side_mm, const std::string& text) {
  if (text.empty()) return false;
  struct Free {
    void operator()(QRcode* code) const { QRcode_free(code); }
  };
  const std::unique_ptr<QRcode, Free> code(QRcode_encodeData(
      static_cast<int>(text.size()), reinterpret_cast<const unsigned char*>(text.data()), 0, QR_ECLEVEL_M));
  if (!code) return false;
  constexpr int kQuietZone = 4;
  const auto count = static_cast<std::size_t>(code->width) * static_cast<std::size_t>(code->width);
  std::vector<bool> dark(count);
  for (std::size_t k = 0; k < count; ++k) dark[k] = (code->data[k] & 1U) != 0;
  const double module = side_mm / (code->width + 2 * kQuietZone);
  canvas.squares({corner.x_mm + module * kQuietZone, corner.y_mm + module * kQuietZone}, module, code->width, dark);
  return true;
}

}  // namespace brakewright::report
