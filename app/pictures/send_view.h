#pragma once
// What the page for sending a picture shows, as one value. Made by SendFlow, shown by SendPage.
#include <QImage>
#include <QString>

namespace vh::pictures
{

struct SendView {
    enum class Stage {
        choosing,  ///< nothing is chosen yet, or what was chosen could not be taken
        preparing, ///< it is being read
        looking,   ///< large, before it goes
        agreeing,  ///< once: whether this person's pictures may be shown at all
    };
    Stage stage = Stage::choosing;
    QString notice; ///< what was wrong; may be empty
    QImage picture;
    friend bool operator==(const SendView& a, const SendView& b)
    {
        return a.stage == b.stage && a.notice == b.notice && a.picture.cacheKey() == b.picture.cacheKey();
    }
};

} // namespace vh::pictures
