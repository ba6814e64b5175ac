#pragma once
// What the group sees of a step: the cue right at the text, the text as large as fits, the picture beside it. The same
// in every home and in the leader's window for the group. GUI thread.
#include "app/widgets/cue_badge.h"
#include "app/widgets/fitted_text.h"

#include <QImage>
#include <QWidget>

class QLabel;

namespace vh
{

/// Of a step's text in a home: a short phrase is no easier to read when it is larger still; what is too long for the
/// screen otherwise (to be read, not to be said) is smaller, so that all of it is seen.
inline constexpr FitLimits kHomeText{look::kSmallestClassText, 24, 132, look::Weight::regular};

class ClassSheet : public QWidget
{
    Q_OBJECT
public:
    struct State {
        CueBadge::State cue;
        FittedText::State text;
        QImage picture; ///< null: none
        QString pictureDescription;
        QString caption{}; ///< below a picture that stands without text
    };

    explicit ClassSheet(QWidget* parent = nullptr);
    void setState(const State& state);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    class PictureBox;
    void place();
    void placeBeside(QRect& text);
    void placeCaption(QRect& picture);

    CueBadge* m_cue;
    FittedText* m_text;
    PictureBox* m_picture;
    QLabel* m_caption;
    bool m_hasPicture = false;
    bool m_hasText = false;
    bool m_hasCue = true;
};

} // namespace vh
