#pragma once

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <type_traits>
#include <utility>

// What the changed copy of the engine is written with: every change is in the program at once, and
// the environment variable MUTANT says which one is made; without it the program is the plain one.
// An operator is changed in its own place and precedence: 'a + b' is written 'a + Plus{7} + b'.
namespace mutation {

inline constexpr int kNoArithmetic = 77;  // exit code: a change of what is no arithmetic (text)

inline bool on(int number) {
  static const int chosen = [] {
    const char* text = std::getenv("MUTANT");
    return text == nullptr ? 0 : std::atoi(text);
  }();
  return number == chosen;
}

template <class T, class U>
T pick(int number, T plain, U changed) {
  return on(number) ? static_cast<T>(changed) : plain;
}

#define MUTATION_BINARY(Name, op, other)                                             \
  struct Name {                                                                      \
    int number;                                                                      \
  };                                                                                 \
  template <class L>                                                                 \
  struct Name##Left {                                                                \
    L&& left;                                                                        \
    int number;                                                                      \
  };                                                                                 \
  template <class L>                                                                 \
  Name##Left<L> operator op(L&& left, Name here) {                                   \
    return {std::forward<L>(left), here.number};                                     \
  }                                                                                  \
  template <class L, class R>                                                        \
  auto operator op(Name##Left<L> here, R&& right) {                                  \
    using Plain = std::decay_t<decltype(here.left op right)>;                        \
    if (on(here.number)) {                                                           \
      if constexpr (requires { static_cast<Plain>(here.left other right); }) {       \
        return static_cast<Plain>(here.left other right);                            \
      } else {                                                                       \
        std::_Exit(kNoArithmetic);                                                   \
      }                                                                              \
    }                                                                                \
    return static_cast<Plain>(std::forward<L>(here.left) op std::forward<R>(right)); \
  }
MUTATION_BINARY(Plus, +, -)
MUTATION_BINARY(Minus, -, +)
MUTATION_BINARY(Times, *, /)
MUTATION_BINARY(Over, /, *)
MUTATION_BINARY(Equal, ==, !=)
MUTATION_BINARY(Unequal, !=, ==)
#undef MUTATION_BINARY

// Two changes: the opposite, and the edge alone.
#define MUTATION_COMPARISON(Name, op, opposite, edge)     \
  struct Name {                                           \
    int number;                                           \
  };                                                      \
  template <class L>                                      \
  struct Name##Left {                                     \
    L&& left;                                             \
    int number;                                           \
  };                                                      \
  template <class L>                                      \
  Name##Left<L> operator op(L&& left, Name here) {        \
    return {std::forward<L>(left), here.number};          \
  }                                                       \
  template <class L, class R>                             \
  bool operator op(Name##Left<L> here, R&& right) {       \
    if (on(here.number)) return here.left opposite right; \
    if (on(here.number + 1)) return here.left edge right; \
    return here.left op right;                            \
  }
MUTATION_COMPARISON(Less, <, >=, <=)
MUTATION_COMPARISON(LessEqual, <=, >, <)
MUTATION_COMPARISON(Greater, >, <=, >=)
MUTATION_COMPARISON(GreaterEqual, >=, <, >)
#undef MUTATION_COMPARISON

// 'x += y' is written 'x += Add{7} += y': what is added comes out turned.
#define MUTATION_ASSIGN(Name, op, turned)                      \
  struct Name {                                                \
    int number;                                                \
    template <class R>                                         \
    std::decay_t<R> operator op(R&& right) {                   \
      if (on(number)) {                                        \
        if constexpr (std::is_arithmetic_v<std::decay_t<R>>) { \
          return static_cast<std::decay_t<R>>(turned);         \
        } else {                                               \
          std::_Exit(kNoArithmetic);                           \
        }                                                      \
      }                                                        \
      return std::forward<R>(right);                           \
    }                                                          \
  };
MUTATION_ASSIGN(Add, +=, -right)
MUTATION_ASSIGN(Subtract, -=, -right)
MUTATION_ASSIGN(Multiply, *=, 1 / right)
MUTATION_ASSIGN(Divide, /=, 1 / right)
#undef MUTATION_ASSIGN

// Prefix operators: '!x' is written 'Not{7}->*x'.
struct Not {
  int number;
  template <class T>
  bool operator->*(T&& value) const {
    return on(number) ? static_cast<bool>(value) : !value;
  }
};
struct Negative {
  int number;
  template <class T>
  auto operator->*(T value) const {
    return on(number) ? value : static_cast<T>(-value);
  }
};
struct Up {
  int number;
  template <class T>
  T& operator->*(T& value) const {
    return on(number) ? --value : ++value;
  }
};
struct Down {
  int number;
  template <class T>
  T& operator->*(T& value) const {
    return on(number) ? ++value : --value;
  }
};

struct Min {
  int number;
  template <class T>
  T operator()(const T& a, const T& b) const {
    return on(number) ? std::max(a, b) : std::min(a, b);
  }
};
struct Max {
  int number;
  template <class T>
  T operator()(const T& a, const T& b) const {
    return on(number) ? std::min(a, b) : std::max(a, b);
  }
};
struct Floor {
  int number;
  double operator()(double value) const {
    return on(number) ? std::ceil(value) : std::floor(value);
  }
};
struct Ceil {
  int number;
  double operator()(double value) const {
    return on(number) ? std::floor(value) : std::ceil(value);
  }
};
struct Round {
  int number;
  double operator()(double value) const {
    return on(number) ? std::floor(value) : std::round(value);
  }
};
struct Abs {
  int number;
  double operator()(double value) const { return on(number) ? value : std::abs(value); }
};

}  // namespace mutation
