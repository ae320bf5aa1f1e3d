#include "shop/practice/fields.hpp"
#include "shop/room_json.hpp"

namespace brakewright::shop {

BRAKEWRIGHT_ROOM_JSON(PracticeSet)
BRAKEWRIGHT_ROOM_JSON(NewPracticeSet)
BRAKEWRIGHT_ROOM_JSON(PracticeRun)
BRAKEWRIGHT_ROOM_JSON(PracticeRecord)
BRAKEWRIGHT_ROOM_JSON(NewPracticeRun)
BRAKEWRIGHT_ROOM_JSON(NewPracticeAct)

}  // namespace brakewright::shop
