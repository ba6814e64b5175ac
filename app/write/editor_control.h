#pragma once
// Writing one class: the document, its draft on disk and its page, held together. Give it a file or a class to begin
// with, show page(), and listen to what it asks for. The class that people will read is written only when it is saved
// and valid; until then what is written is a draft beside it (draft_keeper.h), at most two seconds behind. GUI thread.
#include "app/write/class_document.h"
#include "app/write/draft_keeper.h"
#include "app/write/editor_page.h"

#include <functional>

namespace vh::write
{

struct EditorSetup {
    /// What a class in this language is reviewed by; the library adds the sentences used lately. Empty: rulesFor().
    std::function<ReviewRules(std::string_view language)> rules;
    /// Asks for a picture file; empty text: none was chosen. Empty: the system's own way to choose a file.
    std::function<QString(QWidget* above)> choosePicture;
    DraftKeeper::Setup drafts;
};

class EditorControl : public QObject
{
    Q_OBJECT
public:
    /// The page is a child of `parent`, and so is this.
    EditorControl(const EditorSetup& setup, QWidget* parent);
    ~EditorControl() override;

    /// A class file, or one of which there is only a draft. What cannot be read, or is open elsewhere, is said on the
    /// page, with a way back.
    void open(const QString& path);
    /// A class that is no file yet. Nothing that is there is overwritten: where `path` is taken, a number is added to
    /// it.
    void openNew(const ClassScript& script, const QString& path);

    [[nodiscard]] EditorPage* page() const { return m_page; }
    [[nodiscard]] ClassDocument& document() { return m_document; }
    [[nodiscard]] QString path() const { return m_keeper.path(); }
    /// Writes what is not on disk yet. To be called before the program ends.
    void keepNow() { m_keeper.keepNow(); }

signals:
    /// Everything is on disk, or the leader has said that it need not be.
    void leaveRequested();
    void rehearseRequested(const vh::ClassScript& script, const QString& folder);
    void handoutRequested(const vh::ClassScript& script, const QString& folder);
    /// The class that people will read is on disk.
    void saved(const QString& path);

private:
    void connectTyping();
    void connectPresses();
    void pressed(Press press);
    void show();
    void say(const QString& words);
    void ask(AskView ask);
    void answered(EditorAnswer answer);
    void begin(const ClassScript& script, Spot spot, bool finished);
    void openHere(const QString& path);
    void save();
    void leave();
    void leaveNow();
    void restructure(Structure what);
    void goOn();
    void takeTexts(const QString& lines);
    void goTo(const std::optional<Spot>& spot);
    void goToRemark(int remark);
    void mend();
    void choosePicture();
    void editRounds(const std::optional<EditedRounds>& rounds, const QString& what);
    [[nodiscard]] QString folder() const;
    [[nodiscard]] QImage picture(const std::string& file);

    EditorSetup m_setup;
    ClassDocument m_document;
    DraftKeeper m_keeper;
    EditorPage* m_page;
    AskView m_ask;
    std::optional<DraftKeeper::Unfinished> m_unfinished; ///< while it is asked about
    ClassScript m_onDisk;                                ///< the class as it was read
    QString m_asked;                                     ///< the path that is asked about
    TurnKind m_sheetTurn = TurnKind::yours;
    bool m_largest = false;
    bool m_unsaved = false; ///< something is not in the class file yet
    QString m_said;
    QHash<QString, QImage> m_pictures; ///< as they are shown
};

} // namespace vh::write
