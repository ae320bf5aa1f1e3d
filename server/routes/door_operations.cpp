#include <algorithm>
#include <nlohmann/json.hpp>

#include "api/description.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"
#include "server/doors/doorkeeper.hpp"
#include "server/routes/operations.hpp"
#include "shop/demo/demo.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/words.hpp"

namespace brakewright::server {
namespace {

using shop::SecretKind;

shop::Uuid id_in(calc::Reader& body, const char* name) {
  const std::string text = body.text(name);
  try {
    return shop::parse_uuid(text);
  } catch (const InputError& error) {
    throw error.within(name);
  }
}

SecretKind kind_named(const std::string& word) { return word == "pin" ? SecretKind::pin : SecretKind::password; }

SecretKind kind_in(calc::Reader& body) { return kind_named(body.one_of("kind", {"pin", "password"})); }

Json signed_in(Doorkeeper& keeper, const shop::Person& person) {
  return {{"person_id", shop::to_text(person.id)},
          {"role", shop::word_of(person.role)},
          {"idle_minutes", keeper.rules().idle_of(person.role).count()}};
}

http::Response with_cookie(http::Response response, std::string cookie) {
  response.headers.emplace_back("Set-Cookie", std::move(cookie));
  return response;
}

shop::Person person_named(shop::Shop& shop, const shop::Uuid& id) {
  const auto people = shop.people();
  const shop::Person* found = shop::find(people, id);
  if (found == nullptr) throw shop::RuleError("unknown_person", "person_id", "nobody in this shop has this id");
  return *found;
}

std::string demo_hint() {
  return std::string("Demo shop: students and visitors come in with the PIN ") + shop::kDemoPin +
         ", teachers and lead hands with the password \"" + shop::kDemoPassword + "\"; they sign with " +
         shop::kDemoPin + ".";
}

/// What stands beside the names: who there is, who is at this tablet.
http::Response doors(const Call& call, Surroundings& around) {
  Doorkeeper& keeper = *around.keeper;
  Json people = Json::array();
  for (const shop::Person& one : around.shop.people()) {
    if (!one.active) continue;
    const SecretKind kind = shop::comes_in_with(one.role);
    people.push_back({{"id", shop::to_text(one.id)},
                      {"name", one.name},
                      {"role", shop::word_of(one.role)},
                      {"has_secret", keeper.doors().has(one.id, kind)},
                      {"secret_kind", shop::word_of_secret(kind)},
                      {"can_sign", shop::leads(one.role) && keeper.doors().has(one.id, SecretKind::pin)}});
  }
  const shop::Settings settings = around.shop.settings();
  const auto you = keeper.who(call.request());
  const bool hint = settings.demo && keeper.doors().closed();
  return json_answer({{"closed", keeper.doors().closed()},
                      {"shop_name", settings.shop_name},
                      {"people", std::move(people)},
                      {"you", you ? signed_in(keeper, you->person) : Json(nullptr)},
                      {"hint", hint ? Json(demo_hint()) : Json(nullptr)}});
}

http::Response first(const Call& call, Surroundings& around) {
  const Json json = call.body();
  calc::Reader body(json);
  const shop::Uuid id = id_in(body, "id");
  const std::string name = body.text("name");
  const std::string password = body.text("password");
  body.done();
  const shop::Person teacher = around.keeper->doors().close_first(id, name, password);
  return with_cookie(json_answer(signed_in(*around.keeper, teacher)), around.keeper->sign_in(call.request(), id));
}

/// Whoever has no PIN yet chooses it as they come in for the first time; those who lead are given their password.
void choose_pin(const shop::Person& person, const std::string& pin, Doorkeeper& keeper) {
  const SecretKind kind = shop::comes_in_with(person.role);
  if (keeper.doors().has(person.id, kind)) {
    throw shop::RuleError("has_secret", "new", "this name has its PIN already; a teacher can take it away");
  }
  if (kind != SecretKind::pin) {
    throw shop::RuleError("needs_teacher", "new", "a teacher gives this person the first password");
  }
  keeper.doors().set(person.id, kind, pin, person.id);
}

http::Response sign_in(const Call& call, Surroundings& around) {
  const Json json = call.body();
  calc::Reader body(json);
  const shop::Uuid id = id_in(body, "person_id");
  const std::string secret = body.text("secret");
  const bool is_new = body.boolean_or("new", false);
  body.done();
  Doorkeeper& keeper = *around.keeper;
  if (!keeper.doors().closed()) {
    throw shop::RuleError("doors_open", "", "nobody needs to sign in here while no teacher has a password");
  }
  const auto people = around.shop.people();
  const shop::Person* person = shop::find(people, id);
  if (is_new && person != nullptr && person->active) {
    choose_pin(*person, secret, keeper);
  } else {
    keeper.check(call.request(), id, person == nullptr ? SecretKind::pin : shop::comes_in_with(person->role), secret);
  }
  return with_cookie(json_answer(signed_in(keeper, *person)), keeper.sign_in(call.request(), id));
}

/// One's own with the present one; a teacher's word for anybody else, a lead hand's for those who do not lead.
void may_set(const SignedIn& at, const shop::Person& whose, const std::optional<std::string>& present, const Call& call,
             Doorkeeper& keeper) {
  if (at.person.id == whose.id) {
    const SecretKind kind = shop::comes_in_with(whose.role);
    if (keeper.doors().has(whose.id, kind)) keeper.check(call.request(), whose.id, kind, present.value_or(""));
    return;
  }
  const bool may = at.person.role == shop::Role::teacher || (shop::leads(at.person.role) && !shop::leads(whose.role));
  if (!may) throw http::Refusal(403, "needs_teacher", "", "only a teacher sets what somebody else comes in with");
}

http::Response put_secret(const Call& call, Surroundings& around) {
  const Json json = call.body();
  calc::Reader body(json);
  const SecretKind kind = kind_in(body);
  const std::string secret = body.text("secret");
  const auto present = body.optional_text("present_secret");
  body.done();
  Doorkeeper& keeper = *around.keeper;
  const SignedIn at = keeper.needed(call.request());
  const shop::Person whose = person_named(around.shop, call.id("person_id"));
  if (kind == SecretKind::password && !shop::leads(whose.role)) {
    throw InputError("out_of_range", "kind", "students and visitors come in with a PIN");
  }
  shop::check_secret(kind, secret, "secret");
  may_set(at, whose, present, call, keeper);
  keeper.doors().set(whose.id, kind, secret, at.person.id);
  keeper.end_others_of(whose.id, call.request());
  return json_answer({{"person_id", shop::to_text(whose.id)}, {"kind", shop::word_of_secret(kind)}});
}

http::Response take_secret_away(const Call& call, Surroundings& around) {
  Doorkeeper& keeper = *around.keeper;
  const SignedIn at = keeper.needed(call.request());
  const shop::Person whose = person_named(around.shop, call.id("person_id"));
  if (shop::leads(whose.role) && at.person.role != shop::Role::teacher) {
    throw http::Refusal(403, "needs_teacher", "",
                        "only a teacher takes away what a teacher or lead hand comes in with");
  }
  const std::string kind = call.needed_text("kind");
  keeper.doors().take_away(whose.id, kind_named(kind), at.person.id);
  keeper.end_others_of(whose.id, call.request());
  return json_answer({{"person_id", shop::to_text(whose.id)}, {"kind", kind}});
}

/// Whether a signature does for an operation: what is done at the bench, and not who may do what.
bool is_signable(const std::string& operation) {
  for (const auto& [pattern, path] : api::openapi().at("paths").items()) {
    for (const auto& [method, described] : path.items()) {
      const bool named = described.is_object() && described.value("operationId", "") == operation;
      if (named) return described.value("x-signable", false);
    }
  }
  return false;
}

http::Response give_signature(const Call& call, Surroundings& around) {
  const Json json = call.body();
  calc::Reader body(json);
  const shop::Uuid id = id_in(body, "person_id");
  const std::string pin = body.text("pin");
  const std::string operation = body.text("operation");
  body.done();
  Doorkeeper& keeper = *around.keeper;
  const SignedIn at = keeper.needed(call.request());
  if (!is_signable(operation)) {
    throw InputError("out_of_range", "operation",
                     "this cannot be signed for; a teacher or a lead hand comes in by their own name to do it");
  }
  const auto people = around.shop.people();
  const shop::Person* signer = shop::find(people, id);
  if (signer != nullptr && !shop::leads(signer->role)) {
    throw http::Refusal(403, "needs_teacher", "person_id", "teachers and lead hands sign for others, nobody else");
  }
  keeper.check(call.request(), id, SecretKind::pin, pin);
  return json_answer(
      {{"token", keeper.give_signature(at, operation, id)}, {"good_for_s", shop::kSignatureGood.count()}});
}

}  // namespace

void add_door_operations(Operations& operations, Surroundings& around) {
  operations["doors"] = [&](const Call& call) { return doors(call, around); };
  operations["close_doors"] = [&](const Call& call) { return first(call, around); };
  operations["sign_in"] = [&](const Call& call) { return sign_in(call, around); };
  operations["sign_out"] = [&](const Call& call) {
    return with_cookie(json_answer({{"signed_in", false}}), around.keeper->sign_out(call.request()));
  };
  operations["put_secret"] = [&](const Call& call) { return put_secret(call, around); };
  operations["take_secret_away"] = [&](const Call& call) { return take_secret_away(call, around); };
  operations["give_signature"] = [&](const Call& call) { return give_signature(call, around); };
}

}  // namespace brakewright::server
