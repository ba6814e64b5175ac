#pragma once
// Small files with one or more mistakes each, and exactly what the reader must say about them.
#include <string>
#include <vector>

struct Expected {
    int line;
    int column;
    std::string code;
};

struct BadInput {
    std::string name;
    std::string yaml;
    std::vector<Expected> errors;
};

/// A class with nothing wrong whose lines 1 to 10 are known; cases replace a part of it.
std::string smallClass();
std::vector<BadInput> badInputs();
