// Boost.JSON, compiled here once for everybody.
#include <boost/json/src.hpp>
