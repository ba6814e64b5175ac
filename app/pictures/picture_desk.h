#pragma once
// The pictures at the desk: which there are, the one that is looked at, and what is being changed about it. What was
// changed goes up before the decision does, and the decision waits for the picture to be made anew. Decisions on a
// picture are asked for, not sent: they are made, and undone, as those on lines are. GUI thread; must not outlive line
// and shelf.
#include "app/pictures/edit_draft.h"
#include "app/pictures/picture_sheet.h"
#include "app/pictures/shelf.h"

#include <map>

namespace vh::pictures
{

class PictureDesk : public QObject
{
    Q_OBJECT
public:
    PictureDesk(link::Line& line, PictureShelf& shelf, QObject* parent = nullptr);

    [[nodiscard]] bool isOpen() const { return m_open != 0; }
    [[nodiscard]] quint64 open() const { return m_open; }
    /// Of the one that is open; `now` is the relay's time.
    [[nodiscard]] SheetView view(Instant now) const;
    /// Those that are here in small, of what is to be looked at or with the leader. Looking is wanting them.
    [[nodiscard]] std::vector<std::pair<std::uint64_t, QImage>> smallOnes() const;

    /// As it was last seen: to be named in a decision.
    [[nodiscard]] std::uint64_t changeOf(std::uint64_t item) const;

    /// Nothing where there is no such picture. What was changed about it before and not sent is still there.
    void openItem(quint64 item);
    void close();
    /// What the sheet asks for is bound to these.
    void bind(const PictureSheet& sheet);
    void change(const PictureEdit& edit, EditDraft::Step step);
    void undo();
    void become(Becomes what);

signals:
    void changed();
    void closed();
    /// To be done as for a line: the picture is as the helper left it.
    void decisionRequested(quint64 item, vh::wire::Decision decision);

private:
    struct Picture {
        wire::DeskItem item;
        EditDraft draft;
    };
    struct Pending { ///< an edit that has gone up
        RequestId id;
        std::uint64_t item = 0;
        std::uint64_t change = 0; ///< as it was when it went up
        wire::Decision then = wire::Decision::show;
        bool done = false;
    };
    void take(const wire::ToClient& message);
    void takeItem(const wire::DeskItem& item);
    void answered(const RequestId& id, const Error* error);
    void settle();
    void endCut(bool kept);
    void endStep();
    [[nodiscard]] Picture* shown();
    [[nodiscard]] const Picture* shown() const;

    link::Line& m_line;
    PictureShelf& m_shelf;
    std::map<std::uint64_t, Picture> m_pictures;
    quint64 m_open = 0;
    std::optional<Pending> m_pending;
    QString m_notice;
};

} // namespace vh::pictures
