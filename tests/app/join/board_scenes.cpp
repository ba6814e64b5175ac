// The board: with much on it and with nothing, one's own lines as they stand, writing, quiet, answers, who is here.
#include "tests/app/join/scenes.h"

namespace vh::testing
{

using namespace vh::join;

namespace
{

const Place kTalk{0, 0, 0, 0};
const Place kPhrases{1, 0, 1, 3};
const Place kWater{3, 0, 0, 0};

void put(JoinModel& model, std::uint64_t item, const char* name, const char* text,
         wire::ItemKind kind = wire::ItemKind::line)
{
    wire::BoardItem made;
    made.item = made.change = item;
    made.name = name;
    made.text = text;
    made.kind = kind;
    model.take(wire::ToClient(wire::Board{1, {made}}));
}

void someLines(JoinModel& model)
{
    put(model, 1, "Odile", "Good morning from the lake, the ice is gone and my geraniums are out on the sill again.");
    put(model, 2, "Wim", "Good morning! \xF0\x9F\x8C\xB7 Here it rains.");
    put(model, 3, "", "Which page of the handout is it today?");
    put(model, 4, "", "We begin at ten past, Anna is nearly ready.", wire::ItemKind::notice);
}

const char* const kLongest =
    "This is as long as a line may be, five hundred letters, and somebody has taken all of them to tell the whole "
    "group "
    "what happened on the way to the baker: first the bus did not come, then it came twice, and when it was there at "
    "last the driver said that the bridge is closed until the summer, so that all of us walked along the water, in the "
    "rain, with the ducks beside us, and nobody minded, because it was warm; in the end the baker had kept the very "
    "last loaf for us, and we ate it there.";

std::uint64_t write(JoinModel& model, const char* text)
{
    model.write(text);
    const Wishes wishes = model.send();
    return wishes.empty() ? 0 : wishes.front().line;
}

void own(JoinModel& model)
{
    (void)model.lineHasGoneOut(write(model, "Good morning from Mill Lane"), 11);
    put(model, 11, "Ruth", "Good morning from Mill Lane");
    (void)model.lineHasGoneOut(write(model, "May we do the second one again?"), 12);
    (void)write(model, "My tulips are out, too.");
}

void answered(JoinModel& model, const char* text, const char* from = "Bram")
{
    model.take(wire::ToClient(wire::Answer{
        21, from, "Is there a class tomorrow, and may my neighbour come along to listen for once?", text, Instant{}}));
}

QImage beans(QSize size)
{
    QImage image(size, QImage::Format_RGB32);
    for (int y = 0; y < size.height(); ++y)
        for (int x = 0; x < size.width(); ++x)
            image.setPixelColor(x, y, QColor(90 + 60 * x / size.width(), 150 - 50 * y / size.height(), 90));
    return image;
}

wire::PictureAbout about(std::uint8_t number, std::uint32_t width, std::uint32_t height)
{
    wire::PictureAbout made;
    made.hash[0] = number;
    made.width = width;
    made.height = height;
    return made;
}

/// Two of others, one of which is still on its way, and one of one's own.
void somePictures(JoinModel& model)
{
    model.setPictures([](const wire::Hash& hash) { return hash[0] == 2 ? QImage() : beans({240, 180}); });
    wire::BoardItem item;
    item.kind = wire::ItemKind::picture;
    item.item = item.change = 31;
    item.name = "Odile";
    item.text = "My beans by the lake, on the first warm morning of the year";
    item.picture = about(1, 1600, 1200);
    wire::BoardItem other = item;
    other.item = other.change = 32;
    other.name = "Wim";
    other.text = {};
    other.picture = about(2, 900, 1600);
    model.take(wire::ToClient(wire::Board{1, {item, other}}));
    wire::OwnLine mine;
    mine.item = 33;
    mine.text = "Ours, before the slugs came";
    mine.kind = wire::ItemKind::picture;
    mine.picture = about(3, 1200, 1600);
    model.take(wire::ToClient(wire::OwnNow{{mine}}));
}

using Arrange = std::function<void(JoinModel&, ClassHere&)>;

Arrange at(Place place, const std::function<void(JoinModel&)>& then)
{
    return [=](JoinModel& model, ClassHere& here) {
        joinFully(model, here);
        here.place(model, place);
        then(model);
    };
}

/// At the board, with what the others wrote.
Arrange atBoard(Place place, const std::function<void(JoinModel&)>& then)
{
    return [=](JoinModel& model, ClassHere& here) {
        joinFully(model, here);
        here.place(model, kTalk);
        someLines(model);
        here.place(model, place);
        model.pressWrite();
        then(model);
    };
}

} // namespace

std::vector<Scene> boardScenes()
{
    return {
        {"board-empty", at(kTalk, [](JoinModel& m) { m.pressWrite(); })},
        {"board-lines", atBoard(kTalk, [](JoinModel&) {})},
        {"board-own", atBoard(kTalk, own)},
        {"board-writing",
         atBoard(kTalk, [](JoinModel& m) { m.write("Good morning everybody, it is raining here, too"); })},
        {"board-nearly-full", atBoard(kTalk, [](JoinModel& m) { m.write(QString(kLongest).left(475)); })},
        {"board-full", atBoard(kTalk, [](JoinModel& m) { m.write(QString(500, 'x')); })},
        {"board-rests", atBoard(kPhrases,
                                [](JoinModel& m) {
                                    own(m);
                                    put(m, 9, "Edda", "This waits.");
                                })},
        {"board-refused", atBoard(kTalk,
                                  [](JoinModel& m) {
                                      m.lineRefused(write(m, "One more question"),
                                                    "Your earlier lines are still to be read. Please wait a moment.");
                                  })},
        {"board-refused-while-writing",
         atBoard(kTalk,
                 [](JoinModel& m) {
                     const std::uint64_t line = write(m, "One more question");
                     m.write("And now I write something else");
                     m.lineRefused(line, "Your earlier lines are still to be read. Please wait a moment.");
                 })},
        {"board-taken-back", atBoard(kTalk,
                                     [](JoinModel& m) {
                                         const std::uint64_t line = write(m, "Good morning from Mill Lane");
                                         (void)m.lineHasGoneOut(line, 11);
                                         (void)m.pressLine(line);
                                     })},
        {"board-line-lost", atBoard(kTalk,
                                    [](JoinModel& m) {
                                        m.lineIs(link::LineState::lost, {});
                                        (void)write(m, "Good morning from Mill Lane");
                                    })},
        {"board-quiet",
         atBoard(kTalk,
                 [](JoinModel& m) { m.take(wire::ToClient(wire::MayWrite{m.board().now() + Millis{600'000}})); })},
        {"board-longest", atBoard(kPhrases,
                                  [](JoinModel& m) {
                                      (void)m.lineHasGoneOut(write(m, kLongest), 11);
                                      put(m, 11, "Ruth", kLongest);
                                  })},
        {"board-rubbish", atBoard(kTalk,
                                  [](JoinModel& m) {
                                      put(m, 5, "Bartholomea von Hohenstein-Lichtenberg",
                                          std::string(500, 'W').c_str());
                                      put(m, 6, "Edda", "a\nb\nc\nd\ne\nf\ng\nh\ni\nj\nk\nl");
                                  })},
        {"board-answered",
         atBoard(kTalk, [](JoinModel& m) { answered(m, "Yes, at ten, and do bring your neighbour."); })},
        {"board-pictures", atBoard(kTalk, somePictures)},
        {"choices-pictures", at(kTalk,
                                [](JoinModel& m) {
                                    (void)m.agreeToPictures();
                                    m.pressChoices();
                                })},
        {"class-picture", at({1, 0, 0, 0},
                             [](JoinModel& m) {
                                 m.picturesAre({beans({1600, 1200}), {}, "Ruth: My beans"}, 0);
                             })},
        {"class-picture-in-pause",
         at(kWater,
            [](JoinModel& m) {
                m.picturesAre({beans({900, 1600}), {}, "Odile: My sister's plot by the lake, beans in four rows"}, 0);
            })},
        {"class-picture-coming", at({1, 0, 0, 0},
                                    [](JoinModel& m) {
                                        m.picturesAre({{}, "The picture is on its way.", "Ruth"}, 0);
                                    })},
        {"ask-leaving-picture", at(kTalk,
                                   [](JoinModel& m) {
                                       m.picturesAre({}, 1);
                                       m.pressLeave();
                                   })},
        {"people", atBoard(kTalk,
                           [](JoinModel& m) {
                               (void)m.pressPeople();
                               m.take(wire::ToClient(wire::People{
                                   {"Wim", "Anna", "Odile", "Edda", "Marta", "Piet", "Ines", "Rolf", "Greta", "Jo",
                                    "Bartholomea von Hohenstein-Lichtenberg", "Lena", "Kurt", "Ada"},
                                   0}));
                           })},
        {"people-many", atBoard(kTalk,
                                [](JoinModel& m) {
                                    (void)m.pressPeople();
                                    wire::People people;
                                    for (int i = 0; i < 300; ++i)
                                        people.names.push_back("Maximiliana " + std::to_string(i));
                                    people.more = 41;
                                    m.take(wire::ToClient(people));
                                })},
        {"people-not-shown", atBoard(kTalk,
                                     [](JoinModel& m) {
                                         (void)m.goBack();
                                         m.pressChoices();
                                         (void)m.pick(5, 1);
                                         (void)m.goBack();
                                         m.pressWrite();
                                         (void)m.pressPeople();
                                     })},
        {"answer", at(kWater, [](JoinModel& m) { answered(m, "Yes, at ten, and do bring your neighbour."); })},
        {"answer-longest",
         at(kWater, [](JoinModel& m) { answered(m, kLongest, "Bartholomea von Hohenstein-Lichtenberg"); })},
        {"answer-quiet", at(kWater,
                            [](JoinModel& m) {
                                m.take(wire::ToClient(wire::MayWrite{m.board().now() + Millis{600'000}}));
                                answered(m, "Please ring me after class, 555 0123.");
                            })},
        {"class-answer-waits", at({1, 0, 1, 0}, [](JoinModel& m) { answered(m, "Yes, at ten."); })},
        {"class-quiet",
         at(kWater, [](JoinModel& m) { m.take(wire::ToClient(wire::MayWrite{m.board().now() + Millis{600'000}})); })},
        {"class-new-lines", at(kWater, someLines)},
        {"class-notice-in-drill",
         at({1, 0, 1, 0},
            [](JoinModel& m) { put(m, 4, "", "Anna's picture comes back in a moment.", wire::ItemKind::notice); })},
        {"wait-out", at(kWater,
                        [](JoinModel& m) {
                            m.isOut();
                            m.lineIs(link::LineState::ended,
                                     "Please ring Kim before you come again, 555 0123; we would like to talk about "
                                     "what was written on the board this morning, and how we can go on from there.");
                        })},
    };
}

} // namespace vh::testing
