#include "app/join/check_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/fitted_text.h"
#include "app/widgets/level_bar.h"

#include <QComboBox>
#include <QFontMetrics>
#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QListView>
#include <QProgressBar>
#include <QVBoxLayout>

namespace vh::join
{

namespace
{
constexpr int kColumn = 1180;
constexpr int kDevicesWidth = 420;
constexpr int kDeviceWords = kDevicesWidth - 80; // beside the arrow
} // namespace

CheckPage::CheckPage(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel({}, "question", this)), m_where(plainLabel({}, "words", this)),
      m_words(plainLabel({}, "words", this)), m_sheet(new QFrame(this)), m_line(new FittedText(m_sheet)),
      m_hearing(new QWidget(this)), m_level(new LevelBar(m_hearing)), m_progress(new QProgressBar(m_hearing)),
      m_deviceRow(new QWidget(this)), m_deviceLabel(plainLabel(tr("Microphone"), "words", this)),
      m_devices(new QComboBox(this)), m_notice(plainLabel({}, "words", this)),
      m_goOn(new BigButton({}, BigButton::Rank::main, BigButton::Size::touch, this)),
      m_skip(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_more(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_back(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    using look::Space;
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::margin, Space::margin, Space::margin, Space::margin);
    auto* content = new QWidget(this);
    content->setMaximumWidth(kColumn);
    row->addStretch(1);
    row->addWidget(content, 1000);
    row->addStretch(1);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    column->addLayout(head());
    column->addWidget(m_words);

    m_sheet->setProperty(look::kRoleProperty, "sheet");
    auto* inside = new QVBoxLayout(m_sheet);
    inside->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    inside->addWidget(m_line);
    column->addWidget(m_sheet, 1);

    auto* hearing = new QHBoxLayout(m_hearing);
    hearing->setContentsMargins(0, Space::gap, 0, Space::gap);
    hearing->setSpacing(Space::wide);
    m_progress->setRange(0, 1000);
    m_progress->setTextVisible(false);
    m_progress->setAccessibleName(tr("How far the check is"));
    hearing->addWidget(m_level);
    hearing->addWidget(m_progress, 1);
    QSizePolicy keeps = m_hearing->sizePolicy();
    keeps.setRetainSizeWhenHidden(true); // nothing jumps
    m_hearing->setSizePolicy(keeps);
    column->addWidget(m_hearing);
    column->addWidget(m_notice);
    column->addWidget(deviceRow());
    column->addLayout(controls());
    setFocusPolicy(Qt::TabFocus);
}

/// The question, and which one it is.
QLayout* CheckPage::head()
{
    auto* row = new QHBoxLayout;
    row->setSpacing(look::Space::wide);
    m_where->setWordWrap(false);
    row->addWidget(m_heading, 1);
    row->addWidget(m_where, 0, Qt::AlignRight | Qt::AlignVCenter);
    return row;
}

QLayout* CheckPage::controls()
{
    auto* row = new QHBoxLayout;
    row->setSpacing(look::Space::gap);
    const std::pair<BigButton*, CheckPress> all[] = {
        {m_goOn, CheckPress::goOn}, {m_skip, CheckPress::skip}, {m_more, CheckPress::more}, {m_back, CheckPress::back}};
    for (const auto& [button, press] : all) {
        if (button == m_back)
            row->addStretch(1);
        row->addWidget(button);
        connect(button, &BigButton::pressRequested, this, [this, p = press] { emit pressed(p); });
    }
    return row;
}

QWidget* CheckPage::deviceRow()
{
    using look::Space;
    auto* row = new QHBoxLayout(m_deviceRow);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::gap);
    m_deviceLabel->setWordWrap(false);
    m_deviceLabel->setBuddy(m_devices);
    m_devices->setView(new QListView(m_devices)); // one whose rows the look can make large enough to press
    m_devices->setMinimumHeight(Space::touch);
    m_devices->setFixedWidth(kDevicesWidth);
    m_devices->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_devices->setAccessibleName(tr("Microphone"));
    connect(m_devices, &QComboBox::activated, this, &CheckPage::deviceRequested);
    row->addWidget(m_deviceLabel);
    row->addWidget(m_devices);
    row->addStretch(1);
    return m_deviceRow;
}

void CheckPage::setState(const CheckView& view)
{
    const bool otherWords = m_heading->text() != view.heading;
    m_heading->setText(view.heading);
    m_where->setText(view.where);
    m_where->setVisible(!view.where.isEmpty());
    // On the sheet stands what is to be read: the line where there is one, else the words themselves.
    m_words->setText(view.line.isEmpty() ? QString() : view.words);
    const QString& line = view.line.isEmpty() ? view.words : view.line;
    if (line != m_shownLine) {
        m_shownLine = line;
        FittedText::State state;
        state.text = line.toStdString();
        state.limits.largest = 56;
        m_line->setState(state);
    }
    m_hearing->setVisible(view.listening);
    m_level->setState({tr("Your microphone"), view.levelDbfsA});
    m_progress->setValue(static_cast<int>(view.progress * 1000));
    m_notice->setText(view.notice);
    m_notice->setVisible(!view.notice.isEmpty());
    m_skip->setCaption(view.skipMeans);
    for (const auto& [button, words] : {std::pair(m_goOn, view.goOn), std::pair(m_skip, view.skip),
                                        std::pair(m_more, view.more), std::pair(m_back, view.back)}) {
        button->setText(words);
        button->setVisible(!words.isEmpty());
    }
    if (otherWords)
        view.goOn.isEmpty() ? setFocus() : m_goOn->setFocus();
    if (view.devices != m_shownDevices) {
        m_shownDevices = view.devices;
        m_devices->clear();
        const QFontMetrics metrics(look::Look::current().font(look::Type::touch));
        for (const QString& name : view.devices) {
            m_devices->addItem(metrics.elidedText(name, Qt::ElideRight, kDeviceWords));
            m_devices->setItemData(m_devices->count() - 1, name, Qt::AccessibleTextRole);
        }
    }
    if (m_devices->currentIndex() != view.device)
        m_devices->setCurrentIndex(view.device);
    m_deviceRow->setVisible(view.showsDevices && m_devices->count() > 1);
    setAccessibleName(view.heading);
}

} // namespace vh::join
