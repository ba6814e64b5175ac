#pragma once
// What the page of the editor shows of a document. GUI thread.
#include "app/write/class_document.h"
#include "app/write/clock_words.h"
#include "app/write/draft_keeper.h"
#include "app/write/editor_view.h"

namespace vh::write
{

struct ShowOptions {
    TurnKind sheetTurn = TurnKind::yours;
    bool largest = false;
    std::function<QImage(const std::string& file)> picture; ///< of the class's folder
    bool unsaved = false;                                   ///< something is not in the class file yet
    QString said;                                           ///< what was just done
};

/// Longest edge of a picture as it is shown, in px: as homes get it.
inline constexpr int kShownEdge = 640;

EditorView viewOf(const ClassDocument& document, const DraftKeeper::State& kept, const ShowOptions& options);

} // namespace vh::write
