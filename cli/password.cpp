#include <fmt/core.h>
#include <termios.h>
#include <unistd.h>

#include <iostream>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "shop/doors/doors.hpp"
#include "store/secret_table.hpp"
#include "store/session_file.hpp"

namespace brakewright::cli {
namespace {

/// Keeps a terminal from showing what is typed.
class Unseen {
 public:
  Unseen() : on_terminal_(::isatty(STDIN_FILENO) == 1 && ::tcgetattr(STDIN_FILENO, &before_) == 0) {
    if (!on_terminal_) return;
    termios quiet = before_;
    quiet.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &quiet);
  }
  ~Unseen() {
    if (on_terminal_) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
  }
  Unseen(const Unseen&) = delete;
  Unseen& operator=(const Unseen&) = delete;

  bool on_terminal() const { return on_terminal_; }

 private:
  termios before_{};
  bool on_terminal_;
};

std::string line_of_input(const std::string& asked) {
  const Unseen unseen;
  if (unseen.on_terminal()) std::cout << asked << ": " << std::flush;
  std::string line;
  std::getline(std::cin, line);
  if (unseen.on_terminal()) std::cout << '\n';
  return line;
}

}  // namespace

int password(const PasswordOptions& options) {
  if (!std::filesystem::exists(options.shop)) {
    throw InputError("no_such_file", "shop", "there is no shop in " + options.shop.string());
  }
  auto opened = open_to_write(options.shop);
  const shop::Person person = person_named(*opened.shop, options.person, "person");
  const auto kind = options.pin ? shop::SecretKind::pin : shop::SecretKind::password;
  if (!options.pin && !shop::leads(person.role)) {
    throw InputError("out_of_range", "person",
                     person.name + " is neither a teacher nor a lead hand and comes in with a PIN; add --pin");
  }
  const std::string secret =
      line_of_input((options.pin ? "New PIN of " : "New password of ") + person.name + " (not shown)");
  const auto around = surroundings();
  const auto secrets = store::secrets_of(*opened.store);
  shop::Doors doors(*opened.shop, *secrets, {}, around.now, around.random);
  doors.set(person.id, kind, secret, person.id);

  const auto book = store::open_sessions(store::sessions_beside(options.shop));
  for (const shop::Session& session : book->sessions()) {
    if (session.person_id == person.id) book->remove(session.token_sha256);
  }
  fmt::print("{} has a new {}; every tablet on which it was used is signed out\n", person.name,
             shop::word_of_secret(kind));
  return done;
}

}  // namespace brakewright::cli
