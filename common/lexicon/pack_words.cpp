// Part of the build: reads Festival's dictionary, learns its letters, and writes what the program carries along.
#include "common/lexicon/festival_entries.h"
#include "common/lexicon/lexicon.h"

#include <fstream>
#include <iostream>

int main(int argc, char** argv)
{
    if (argc != 3) {
        std::cerr << "usage: pack_words DICTIONARY OUTPUT\n";
        return 2;
    }
    std::ifstream in(argv[1]);
    const auto read = vh::lexicon::festivalEntries(in);
    if (read.entries.empty()) {
        std::cerr << argv[1] << ": no dictionary of Festival's\n";
        return 1;
    }
    const std::string bytes = vh::lexicon::Lexicon::pack(read.entries);
    std::ofstream out(argv[2], std::ios::binary);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) {
        std::cerr << argv[2] << " could not be written\n";
        return 1;
    }
    std::cout << read.entries.size() << " words, " << read.leftOut << " lines left out, " << bytes.size() << " bytes\n";
    return 0;
}
