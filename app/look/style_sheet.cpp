#include "app/look/style_sheet.h"

#include <QHash>

namespace vh::look
{

namespace
{

// {name} stands for a colour of the palette or a size of the type scale.
constexpr auto kTemplate = R"(
QMainWindow, QDialog, QWidget#room { background: {paper}; }
QLabel { background: transparent; }
QLabel[vhRole="title"] { font-size: {title}px; font-weight: bold; }
QLabel[vhRole="heading"] { font-size: {heading}px; }
QLabel[vhRole="question"] { font-size: {cue}px; font-weight: bold; }
QLabel[vhRole="words"] { font-size: {touch}px; }
QLabel[vhRole="second"] { color: {secondInk}; }
QLabel[vhRole="note"] { color: {secondInk}; font-size: {note}px; }
QFrame[vhRole="sheet"] { background: {sheet}; border: 1px solid {line}; border-radius: 12px; }
QFrame[vhRole="rule"] { background: {line}; border: none; }
QFrame[vhRole="quiet"] { background: {quiet}; border: 1px solid {line}; border-radius: 12px; }
QLineEdit, QPlainTextEdit, QComboBox {
    background: {sheet}; border: 2px solid {deep2}; border-radius: 10px; padding: 6px 14px;
    selection-background-color: {deep}; selection-color: {onDeep}; }
QLineEdit, QComboBox { min-height: 44px; font-size: {touch}px; }
QLineEdit[vhRole="desk"] { min-height: 28px; font-size: {body}px; padding: 4px 12px; }
QLineEdit[vhRole="desk"]:focus { padding: 2px 10px; }
QPlainTextEdit { padding: 10px 12px; }
QPlainTextEdit[vhRole="words"] { font-size: {touch}px; }
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus { border: 4px solid {deep}; padding: 4px 12px; }
QComboBox::drop-down { border: none; width: 44px; }
QComboBox::down-arrow { image: url(:/look/down-{ground}.svg); width: 26px; height: 26px; }
QComboBox QAbstractItemView::item { min-height: 60px; padding: 0 14px; }
QComboBox QAbstractItemView::item:selected { background: {quiet}; color: {ink}; border: 2px solid {deep2}; }
QComboBox QAbstractItemView { background: {sheet}; outline: none; }
QCheckBox, QRadioButton { font-size: {touch}px; spacing: 14px; min-height: 60px; padding: 0 10px;
    border: 3px solid transparent; border-radius: 12px; background: transparent; }
QCheckBox:focus, QRadioButton:focus { border-color: {deep}; }
QCheckBox::indicator, QRadioButton::indicator { width: 30px; height: 30px; border: 2px solid {deep2}; background: {sheet}; }
QCheckBox::indicator { border-radius: 6px; }
QRadioButton::indicator { border-radius: 17px; }
QCheckBox::indicator:checked { border: 2px solid {deep2}; image: url(:/look/tick-{ground}.svg); }
QRadioButton::indicator:checked { border: 2px solid {deep2}; image: url(:/look/dot-{ground}.svg); }
QTableView { padding: 4px; }
QTableView, QListView, QListWidget { background: {sheet}; border: 1px solid {line}; border-radius: 12px; outline: none;
    gridline-color: {line}; selection-background-color: {quiet}; selection-color: {ink}; }
QListView::item { padding: 8px 12px; border: 2px solid transparent; border-radius: 10px; }
QListView::item:selected { background: {quiet}; color: {ink}; border-color: {deep2}; }
QTableView:focus { border: 3px solid {deep}; padding: 2px; }
QListView:focus { border: 3px solid {deep}; }
QTableView::item { padding: 0 10px; border: none; }
QTableView::item:selected { background: {quiet}; }
QHeaderView { background: {sheet}; border: none; }
QHeaderView::section { background: {sheet}; color: {secondInk}; font-size: {note}px; border: none;
    border-bottom: 1px solid {line}; padding: 8px 10px; }
QScrollArea, QScrollArea > QWidget > QWidget { background: transparent; border: none; }
QScrollBar:vertical { background: transparent; width: 16px; margin: 2px; }
QScrollBar::handle:vertical { background: {dashes}; border-radius: 6px; min-height: 60px; }
QScrollBar:horizontal { background: transparent; height: 16px; margin: 2px; }
QScrollBar::handle:horizontal { background: {dashes}; border-radius: 6px; min-width: 60px; }
QScrollBar::add-line, QScrollBar::sub-line, QScrollBar::add-page, QScrollBar::sub-page { background: none; border: none;
    width: 0; height: 0; }
QProgressBar { background: {sheet}; border: 2px solid {deep2}; border-radius: 14px; min-height: 24px; max-height: 24px; }
QProgressBar::chunk { background: {deep}; border-radius: 11px; margin: 1px; }
QToolTip { background: {sheet}; color: {ink}; border: 1px solid {deep2}; }
)";

} // namespace

QString styleSheetOf(const Look& look)
{
    const Palette& p = look.palette();
    const QHash<QString, QString> values{
        {"paper", p.paper.name()},
        {"sheet", p.sheet.name()},
        {"quiet", p.quiet.name()},
        {"ink", p.ink.name()},
        {"secondInk", p.secondInk.name()},
        {"line", p.line.name()},
        {"deep", p.deep.name()},
        {"onDeep", p.onDeep.name()},
        {"deep2", p.deep2.name()},
        {"dashes", p.dashes.name()},
        {"ground", look.ground() == Ground::dark ? "dark" : "light"},
        {"note", QString::number(look.pixels(Type::note))},
        {"body", QString::number(look.pixels(Type::body))},
        {"touch", QString::number(look.pixels(Type::touch))},
        {"title", QString::number(look.pixels(Type::title))},
        {"cue", QString::number(look.pixels(Type::cue))},
        {"heading", QString::number(look.pixels(Type::heading))},
    };
    QString sheet = QString::fromLatin1(kTemplate);
    for (auto it = values.cbegin(); it != values.cend(); ++it)
        sheet.replace('{' + it.key() + '}', it.value());
    return sheet;
}

} // namespace vh::look
