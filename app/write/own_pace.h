#pragma once
// What is known of one leader's own pace, kept in a file on her computer: the times of the last classes that she led
// and rehearsed, in sections and kinds of turn, and nothing of anybody else. A file that cannot be read is put aside
// under another name, and what is known begins anew. Two programs at once: the last one that learns something wins. GUI
// thread.
#include "common/live/pace_trace.h"

#include <QObject>
#include <QStringList>

#include <vector>

namespace vh::write
{

class OwnPaceBook : public QObject
{
    Q_OBJECT
public:
    static constexpr std::size_t kMostKept = 20;

    /// `folder` is made when there is something to keep.
    explicit OwnPaceBook(const QString& folder, QObject* parent = nullptr);

    [[nodiscard]] const OwnPace& pace() const { return m_pace; }
    /// What is worth knowing of it, in sentences; empty where everything is about as planned.
    [[nodiscard]] QStringList words() const;
    /// How many classes and rehearsals it comes from.
    [[nodiscard]] std::size_t classes() const { return m_samples.size(); }

    /// An empty sample teaches nothing. False: it could not be kept on the disk; it counts until the program ends.
    bool learn(const PaceSample& sample);
    /// As planned again.
    bool forget();

signals:
    void changed();

private:
    void read();
    bool write() const;
    void workOut();

    QString m_folder;
    std::vector<PaceSample> m_samples; ///< oldest first
    OwnPace m_pace;
};

} // namespace vh::write
