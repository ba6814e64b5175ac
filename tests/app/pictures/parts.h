#pragma once
// Four suites in one program.
namespace vh::testing
{
int picturesMadeReady(int argc, char** argv);
int picturesOnALine(int argc, char** argv);
int picturesInTheWindow(int argc, char** argv);
int picturesAllTheWay(int argc, char** argv);
} // namespace vh::testing
