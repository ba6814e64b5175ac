// Pictures that people send, without a screen: made ready, and over a line.
#include "tests/app/pictures/parts.h"

#include <QCoreApplication>

int main(int argc, char** argv)
{
    QCoreApplication app(argc, argv);
    return vh::testing::picturesMadeReady(argc, argv) + vh::testing::picturesOnALine(argc, argv) +
           vh::testing::picturesInTheWindow(argc, argv) + vh::testing::picturesAllTheWay(argc, argv);
}
