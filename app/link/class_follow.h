#pragma once
// Follows the open class over a line: fetches its parts (the script first, then pictures), each once, keeps them by
// hash, and knows where the class is. What comes from the network is taken only when its hash is right and its values
// hold (wire/script_json.h). Other parts that are wanted (the handout's) come in the same row, after these.
// GUI thread; must not outlive its line.
#include "app/link/line.h"
#include "common/script/script.h"

#include <QByteArray>

#include <map>
#include <memory>
#include <set>

namespace vh::link
{

class ClassFollow : public QObject
{
    Q_OBJECT
public:
    explicit ClassFollow(Line& line, QObject* parent = nullptr);

    /// The open class, from its announcement on; nothing when none is open.
    [[nodiscard]] const std::optional<wire::ClassOpen>& open() const { return m_open; }
    /// Null until it has been fetched. Of a class that was corrected the one before, until the new one is there.
    [[nodiscard]] std::shared_ptr<const ClassScript> script() const { return m_script; }
    [[nodiscard]] const std::optional<wire::PlaceNow>& place() const { return m_place; }
    /// Where the class is, once both script and place are known.
    [[nodiscard]] std::optional<TurnAt> turn() const;
    /// What is left of the turn by the relay's time; 0 when over, the whole while the clock is held.
    [[nodiscard]] Millis turnLeft() const;
    /// The PNG of a step's picture (Picture::file is "<hash>.png"); empty until it has been fetched.
    [[nodiscard]] QByteArray picture(const std::string& file) const;
    /// Parts besides those of the class, which go first: fetched from now on, kept until others (or none) are wanted.
    void alsoFetch(std::vector<wire::Hash> parts);
    /// Whether parts besides those of the class may be asked for now; one that is on its way still comes.
    void setHeldBack(bool heldBack);
    /// Of what was fetched; nothing until it is there.
    [[nodiscard]] std::optional<QByteArray> part(const wire::Hash& hash) const;

signals:
    /// The class, its script, a picture or the place: something is different.
    void changed();
    /// One of those in alsoFetch() is not to be had on this line.
    void withheld(const vh::wire::Hash& part);

private:
    void take(const wire::ToClient& message);
    void takeOpen(const wire::ClassOpen& open);
    void takePart(const QByteArray& frame);
    void readScript();
    void partRefused(const std::string& code);
    void fetch();
    void endAsking();
    [[nodiscard]] bool isWanted(const wire::Hash& part) const;
    [[nodiscard]] std::optional<wire::Hash> nextMissing() const;

    Line& m_line;
    std::optional<wire::ClassOpen> m_open;
    std::optional<wire::PlaceNow> m_place;
    std::shared_ptr<const ClassScript> m_script;
    wire::Hash m_scriptHash{}; ///< of m_script
    std::map<wire::Hash, QByteArray> m_parts;
    std::vector<wire::Hash> m_also;    ///< besides those of the class
    bool m_heldBack = false;           ///< these
    std::optional<wire::Hash> m_asked; ///< on its way
    std::set<wire::Hash> m_withheld;   ///< refused for good on this line
};

} // namespace vh::link
