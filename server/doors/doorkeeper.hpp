#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>

#include "server/doors/rights.hpp"
#include "server/http/message.hpp"
#include "shop/doors/doors.hpp"
#include "shop/doors/patience.hpp"
#include "shop/doors/sessions.hpp"
#include "shop/doors/signatures.hpp"
#include "shop/shop.hpp"

namespace brakewright::server {

/// What the doors of a server stand on.
struct DoorOptions {
  std::shared_ptr<shop::SecretStore> secrets;  ///< absent: of the shop's own store, which is then one of this program
  std::shared_ptr<shop::SessionBook> book = std::make_shared<shop::NoBook>();
  shop::HashCosts costs;
  shop::SessionRules sessions;
  SchoolRules school;
  std::function<shop::UtcTime()> now;
  shop::RandomBytes random;
};

/// A person at a tablet.
struct SignedIn {
  shop::Session session;
  shop::Person person;
};

/// A try that came too soon after wrong ones, or was wrong.
class WrongSecret : public std::runtime_error {
 public:
  WrongSecret(int status, const std::string& message, std::int64_t retry_after_s)
      : std::runtime_error(message), status_(status), retry_after_s_(retry_after_s) {}
  http::Response response() const;

 private:
  int status_;
  std::int64_t retry_after_s_;
};

/// Stands between the network and the operations: knows who sends a request and whether they may. Safe to call from
/// several threads.
class Doorkeeper {
 public:
  Doorkeeper(shop::Shop& shop, DoorOptions options);

  /// Runs `work` when whoever sends the call may have it done; with open doors always.
  /// @throws http::Refusal 401 "not_signed_in", 403 "not_you", "bad_signature", "wrong_origin" and those of
  ///         hold_to_rights
  http::Response answer(const Described& operation, const Call& call, const std::function<http::Response()>& work);

  shop::Doors& doors() { return doors_; }
  const shop::SessionRules& rules() const { return sessions_.rules(); }

  /// Who sends this request; nobody with open doors.
  std::optional<SignedIn> who(const http::Request& request);
  SignedIn needed(const http::Request& request);  ///< @throws http::Refusal 401 "not_signed_in"

  /// Holds a secret to a person, and slows down who guesses. @throws WrongSecret
  void check(const http::Request& request, const shop::Uuid& person_id, shop::SecretKind kind,
             const std::string& secret);

  /// Signs a person in on the tablet that sent this; what it was signed in with before ends.
  /// @return the Set-Cookie header
  std::string sign_in(const http::Request& request, const shop::Uuid& person_id);
  std::string sign_out(const http::Request& request);
  void end_others_of(const shop::Uuid& person_id, const http::Request& kept);

  std::string give_signature(const SignedIn& at, const std::string& operation, const shop::Uuid& signer);
  std::size_t sessions_open();

 private:
  std::optional<shop::Person> active(const shop::Uuid& person_id);
  std::string patience_key(const http::Request& request, const shop::Uuid& person_id, shop::SecretKind kind);
  shop::Person acting(const Described& operation, const Call& call, const SignedIn& at,
                      std::optional<shop::Signature>& signature);

  shop::Shop& shop_;
  DoorOptions options_;
  shop::Doors doors_;
  std::mutex guard_;  ///< of all below
  shop::Sessions sessions_;
  shop::Patience of_person_{shop::kPerPerson};
  shop::Patience of_address_{shop::kPerAddress};
  std::set<std::pair<std::string, shop::Uuid>> came_in_;  ///< addresses at which a person came in before
  shop::Signatures signatures_;
};

}  // namespace brakewright::server
