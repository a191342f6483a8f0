# find_package(barwright): targets barwright::core, ::oils, ::targets, ::optimise, ... , all of them ::solver.
include(CMakeFindDependencyMacro)
find_dependency(Eigen3 3.3)
find_dependency(yaml-cpp)
find_dependency(fmt)
find_dependency(NLopt)
include(${CMAKE_CURRENT_LIST_DIR}/barwrightTargets.cmake)
