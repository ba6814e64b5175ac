// Saves a picture of every widget in several states, light and dark, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_widgets FOLDER
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/cue_badge.h"
#include "app/widgets/fitted_text.h"
#include "app/widgets/hall_view.h"
#include "app/widgets/level_bar.h"
#include "app/widgets/notice_line.h"
#include "app/widgets/script_rail.h"
#include "app/widgets/seat_table.h"
#include "app/widgets/voice_meter.h"

#include <QApplication>
#include <QCheckBox>
#include <QDir>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QRadioButton>
#include <QVBoxLayout>

#include <cstdio>

namespace
{

using namespace vh;

const std::vector<Standing> kStandings{Standing::notYet,    Standing::inBand,  Standing::below,    Standing::above,
                                       Standing::straining, Standing::noVoice, Standing::cantTell, Standing::resting,
                                       Standing::private_,  Standing::away};

std::vector<Stretch> stretchesOf(const std::string& text, std::initializer_list<const char*> parts)
{
    std::vector<Stretch> found;
    std::size_t from = 0;
    for (const char* part : parts) {
        const std::size_t at = text.find(part, from);
        const std::size_t end = at + std::string_view(part).size();
        found.push_back({static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(end)});
        from = end;
    }
    return found;
}

ScriptRail::State railState()
{
    using namespace std::chrono_literals;
    ScriptRail::State state;
    state.parts = {{"Opening", 80s, false},     {"Warm-up", 120s, false},     {"Water", 30s, true},
                   {"Long vowel", 180s, false}, {"Water", 30s, true},         {"Glide", 180s, false},
                   {"Counting", 190s, false},   {"Water", 30s, true},         {"Phrases", 300s, false},
                   {"Water", 30s, true},        {"Word groups", 200s, false}, {"Back of tongue", 170s, false},
                   {"Passage", 230s, false},    {"Closing", 70s, false}};
    state.done = 980s;
    state.current = 8;
    return state;
}

std::unique_ptr<QWidget> room(int width, int height)
{
    auto widget = std::make_unique<QWidget>();
    widget->setObjectName("room");
    widget->setAttribute(Qt::WA_StyledBackground);
    widget->resize(width, height);
    return widget;
}

std::unique_ptr<QWidget> controls()
{
    auto page = room(1100, 420);
    auto* column = new QVBoxLayout(page.get());
    auto* touch = new QHBoxLayout;
    auto* help = new BigButton("I need help", BigButton::Rank::main, BigButton::Size::touch, page.get());
    touch->addWidget(help);
    touch->addWidget(new BigButton("Say hello", BigButton::Rank::plain, BigButton::Size::touch, page.get()));
    auto* held = new BigButton("Held down", BigButton::Rank::plain, BigButton::Size::touch, page.get());
    held->setDown(true);
    touch->addWidget(held);
    auto* off = new BigButton("Not now", BigButton::Rank::plain, BigButton::Size::touch, page.get());
    off->setEnabled(false);
    touch->addWidget(off);
    touch->addStretch();
    column->addLayout(touch);
    auto* desk = new QHBoxLayout;
    desk->addWidget(new BigButton("Go on", BigButton::Rank::main, BigButton::Size::desk, page.get()));
    auto* hinted = new BigButton("To the board", BigButton::Rank::plain, BigButton::Size::desk, page.get());
    hinted->setKeyHint("1");
    desk->addWidget(hinted);
    auto* bar = new LevelBar(page.get());
    bar->setState({"They hear you", -32.0F});
    desk->addWidget(bar);
    auto* silent = new LevelBar(page.get());
    silent->setState({"Your microphone is off", std::nullopt});
    desk->addWidget(silent);
    desk->addStretch();
    column->addLayout(desk);
    auto* row = new QHBoxLayout;
    auto* edit = new QLineEdit(page.get());
    edit->setPlaceholderText("Your name");
    row->addWidget(edit);
    auto* tick = new QCheckBox("My level is visible to the leader", page.get());
    tick->setChecked(true);
    row->addWidget(tick);
    auto* dot = new QRadioButton("fine", page.get());
    dot->setChecked(true);
    row->addWidget(dot);
    column->addLayout(row);
    auto* notice = new NoticeLine(page.get());
    notice->setState({"The line is lost. Trying again; nothing you need to do.", NoticeLine::Tone::heed});
    column->addWidget(notice);
    auto* calm = new NoticeLine(page.get());
    calm->setState({"The microphone is off and released.", NoticeLine::Tone::calm});
    column->addWidget(calm);
    column->addStretch();
    help->setFocus();
    page->setFocusProxy(help);
    return page;
}

std::unique_ptr<QWidget> cues()
{
    auto page = room(1000, 460);
    auto* column = new QVBoxLayout(page.get());
    const std::vector<CueBadge::State> states{{TurnKind::listen, false, {}},
                                              {TurnKind::ready, true, {}},
                                              {TurnKind::withMe, false, {}},
                                              {TurnKind::yours, true, {}},
                                              {std::nullopt, false, "Water pause"}};
    for (const auto& state : states) {
        auto* badge = new CueBadge(page.get());
        badge->setState(state);
        column->addWidget(badge);
    }
    auto* row = new TurnRow(page.get());
    row->setState({{TurnKind::listen, TurnKind::ready, TurnKind::withMe, TurnKind::yours},
                   3,
                   {"second time, with more voice \u00B7 0:04"}});
    column->addWidget(row);
    column->addStretch();
    return page;
}

std::unique_ptr<QWidget> meters()
{
    auto page = room(1300, 1060);
    auto* column = new QVBoxLayout(page.get());
    for (const Standing standing : kStandings) {
        VoiceMeter::State state;
        state.standing = standing;
        state.reason = standing == Standing::cantTell ? Blank::roomTooNoisy : Blank::none;
        state.overUsualDb = standing == Standing::below       ? 1.0F
                            : standing == Standing::above     ? 13.0F
                            : standing == Standing::straining ? 15.0F
                                                              : 6.5F;
        if (standing == Standing::notYet)
            state.words = "I hear you";
        auto* meter = new VoiceMeter(page.get());
        meter->setState(state);
        column->addWidget(meter);
    }
    return page;
}

std::unique_ptr<QWidget> rails()
{
    auto page = room(1340, 140);
    auto* column = new QVBoxLayout(page.get());
    auto* rail = new ScriptRail(ScriptRail::Form::full, page.get());
    rail->setState(railState());
    column->addWidget(rail);
    auto* slim = new ScriptRail(ScriptRail::Form::slim, page.get());
    slim->setState(railState());
    slim->setMaximumWidth(260);
    column->addWidget(slim);
    return page;
}

std::unique_ptr<QWidget> seats()
{
    auto page = room(800, 470);
    auto* column = new QVBoxLayout(page.get());
    auto* table = new SeatTable(page.get());
    std::vector<SeatRow> rows;
    const QStringList names{"Odile", "Bram", "Noor", "Aiko", "Greta", "Wim", "Maren", "Ilse", "Anselm", "Jonas"};
    for (int i = 0; i < names.size(); ++i) {
        const Standing standing = kStandings[static_cast<std::size_t>(i)];
        SeatRow row;
        row.seat = i;
        row.name = names[i];
        row.standing = standing;
        row.reason = standing == Standing::cantTell ? Blank::roomTooNoisy : Blank::none;
        if (hasColumn(standing))
            row.overUsualDb = standing == Standing::below ? -1.6F : standing == Standing::inBand ? 6.2F : 14.0F;
        rows.push_back(row);
    }
    rows[1].note = "hand up";
    table->setState(rows);
    table->selectRow(2);
    column->addWidget(table);
    return page;
}

/// The columns at the size of a hall.
class Columns : public QWidget
{
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        double x = 20;
        for (const Standing standing : kStandings) {
            paintColumn(painter, QRectF(x, 20, 38, 60), standing, std::nullopt, Band{});
            x += 76;
        }
    }
};

std::unique_ptr<QWidget> columns()
{
    auto page = room(790, 100);
    auto* box = new QVBoxLayout(page.get());
    box->setContentsMargins(0, 0, 0, 0);
    auto* all = new Columns;
    box->addWidget(all);
    return page;
}

std::unique_ptr<QWidget> phrase(const std::string& text, std::vector<Stretch> stretches, int width, int height)
{
    auto page = room(width, height);
    auto* column = new QVBoxLayout(page.get());
    auto* sheet = new QFrame(page.get());
    sheet->setProperty(look::kRoleProperty, "sheet");
    column->addWidget(sheet);
    auto* inside = new QVBoxLayout(sheet);
    inside->setContentsMargins(44, 16, 44, 16);
    auto* badge = new CueBadge(sheet);
    badge->setState({TurnKind::yours, true, {}});
    inside->addWidget(badge);
    auto* fitted = new FittedText(sheet);
    FittedText::State state;
    state.text = text;
    state.stretches = std::move(stretches);
    fitted->setState(state);
    inside->addWidget(fitted, 1);
    return page;
}

std::unique_ptr<QWidget> hall(int people, int zoom)
{
    static const QStringList names{"Odile", "Bram",  "Ines", "Tomas",   "Ruth",
                                   "Kofi",  "Maren", "Ivo",  "Quentin", "Paulo"};
    HallView::State state;
    state.places = people;
    for (int i = 0; i < people; ++i) {
        SeatRow row;
        row.seat = row.place = i;
        row.name = names[i % names.size()];
        row.standing = i * 7 % 11 < 7 ? Standing::inBand : kStandings[static_cast<std::size_t>(i * 3 % 10)];
        if (hasColumn(row.standing))
            row.overUsualDb = row.standing == Standing::inBand  ? 4.0F + static_cast<float>(i % 6)
                              : row.standing == Standing::below ? 1.0F
                                                                : 13.5F;
        if (i % 13 != 12)
            state.seats.push_back(row);
    }
    auto page = room(637, 390);
    auto* box = new QVBoxLayout(page.get());
    auto* view = new HallView;
    view->setState(state);
    box->addWidget(view);
    page->resize(637, 390);
    page->show();
    view->setZoom(zoom);
    view->setFocus();
    return page;
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_widgets FOLDER\n");
        return 2;
    }
    for (const auto ground : {look::Ground::light, look::Ground::dark}) {
        if (!look::Look(ground).applyTo(app))
            return 1;
        std::vector<std::pair<QString, std::unique_ptr<QWidget>>> pages;
        pages.emplace_back("controls", controls());
        pages.emplace_back("cues", cues());
        pages.emplace_back("meters", meters());
        pages.emplace_back("rails", rails());
        pages.emplace_back("seats", seats());
        pages.emplace_back("columns", columns());
        for (const int people : {9, 28, 60, 160, 1000, 3000})
            pages.emplace_back(QStringLiteral("hall-%1").arg(people), hall(people, 0));
        pages.emplace_back("hall-1000-nearer", hall(1000, 1));
        pages.emplace_back("hall-1000-names", hall(1000, 2));
        const std::string loaf = "The loaf comes out golden and warm.";
        pages.emplace_back("phrase-loaf", phrase(loaf, stretchesOf(loaf, {"oa", "o", "a"}), 1366, 400));
        pages.emplace_back("phrase-narrow", phrase(loaf, stretchesOf(loaf, {"oa", "o", "a"}), 760, 450));
        pages.emplace_back("phrase-vowel", phrase("ah", {{0, 2}}, 1366, 400));
        const std::string passage =
            "Every Saturday the baker on the corner opens at six. By then the street smells of "
            "rye and caraway, and people stand in a line that reaches the fountain, talking quietly.";
        pages.emplace_back("phrase-passage", phrase(passage, {}, 1366, 420));
        for (const auto& [name, page] : pages) {
            page->show();
            page->activateWindow();
            QApplication::processEvents();
            const QString file =
                QStringLiteral("%1/%2-%3.png").arg(argv[1], name, ground == look::Ground::light ? "light" : "dark");
            if (!page->grab().save(file))
                return 1;
        }
    }
    return 0;
}
