#include "report/bar/bar.hpp"

#include <algorithm>
#include <cstdio>

namespace brakewright::report {

void draw_probability(Canvas& canvas, Box box, double p, double asked) {
  const double height = 2.4;
  const auto x = [&](double share) { return box.x_mm + box.width_mm * std::clamp(share, 0.0, 1.0); };
  canvas.fill({box.x_mm, box.y_mm, x(p) - box.x_mm, height}, kInk);
  canvas.rectangle({box.x_mm, box.y_mm, box.width_mm, height}, kThin, kInk);
  for (int tenth = 0; tenth <= 10; ++tenth) {
    canvas.line({x(tenth / 10.0), box.y_mm + height},
                {x(tenth / 10.0), box.y_mm + height + (tenth % 5 == 0 ? 1.3 : 0.8)}, kHair, kQuiet);
  }
  canvas.polygon({{x(asked), box.y_mm - 0.2}, {x(asked) - 0.9, box.y_mm - 1.9}, {x(asked) + 0.9, box.y_mm - 1.9}},
                 kInk);
  char text[40];
  std::snprintf(text, sizeof text, "asked %g", asked);
  const Type small{.size_pt = 5.2, .colour = kQuiet};
  Type right = small;
  right.align = Align::right;
  canvas.text({box.x_mm, box.y_mm - 0.6}, x(asked) - box.x_mm - 1.4, text, right);
  canvas.text({box.x_mm, box.y_mm + height + 3.4}, 6, "0", small);
  canvas.text({box.right() - 6, box.y_mm + height + 3.4}, 6, "1", right);
}

}  // namespace brakewright::report
