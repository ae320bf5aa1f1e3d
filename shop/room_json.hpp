#pragma once

#include "shop/checking.hpp"
#include "shop/json_reading.hpp"
#include "shop/json_writing.hpp"

/// Gives the entities of a room (a folder of shop/ with its own entities and field lists) their JSON. A room has one
/// source for it, which includes this after the room's own field lists:
///
///   #include "shop/school/fields.hpp"
///   #include "shop/room_json.hpp"
///   namespace brakewright::shop {
///   BRAKEWRIGHT_ROOM_JSON(Permit)
///   BRAKEWRIGHT_ROOM_JSON(Study)
///   }
///
/// Everybody else includes shop/json.hpp. Words of the room's enumerators (shop/words.hpp) must be known by then.
#define BRAKEWRIGHT_ROOM_JSON(Entity)                                 \
  template void check(const Entity&, const std::string&);             \
  template Entity from_json<Entity>(const Json&, const std::string&); \
  template Json to_json(const Entity&);                               \
  template std::string json_text(const Entity&);
