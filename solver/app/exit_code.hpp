#pragma once

namespace barwright::app {

/// What the program returns to the shell; an interface, one test per code.
enum ExitCode : int {
  kFound = 0,         ///< answer found
  kWrongUsage = 2,    ///< command line not understood
  kBadInput = 3,      ///< a file cannot be taken, or the recipe in it is unsafe
  kNothingFits = 4,   ///< proved: no blend fits
  kLimitReached = 5,  ///< stopped before a proof; an answer, if any, is printed
  kOurFault = 70,     ///< a fault of the program
};

}  // namespace barwright::app
