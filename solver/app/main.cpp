#include "solver/app/program.hpp"

int main(int argc, char** argv) { return barwright::app::run(argc, argv); }
