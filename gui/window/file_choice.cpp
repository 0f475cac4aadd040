#include "gui/window/file_choice.hpp"

#include "gui/window/page_parts.hpp"

#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QPushButton>
#include <QStyleOptionComboBox>
#include <QStylePainter>
#include <QVBoxLayout>

namespace zeroline::window {

const QString FileChoice::kDemonstration = QStringLiteral(":demonstration");

namespace {

/// A path that is too long shows by dots that it goes on.
class PathBox : public QComboBox {
protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QStylePainter painter(this);
        QStyleOptionComboBox option;
        initStyleOption(&option);
        if (currentIndex() < 0) {
            option.currentText = placeholderText();
            option.palette.setBrush(QPalette::ButtonText, option.palette.placeholderText());
        }
        painter.drawComplexControl(QStyle::CC_ComboBox, option);
        const auto field = style()->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, this);
        constexpr int air_px = 8;
        option.currentText = fontMetrics().elidedText(option.currentText, Qt::ElideMiddle, field.width() - air_px);
        painter.drawControl(QStyle::CE_ComboBoxLabel, option);
    }
};

} // namespace

FileChoice::FileChoice(const QString& name, const QString& spoken, const QString& kind, const QString& ask,
                       QWidget* parent)
    : QWidget(parent), recent_(kind)
{
    const auto prefixed = [&](const char* what) { return (name + QLatin1String(what)).toUtf8(); };
    files_ = named(static_cast<QComboBox*>(new PathBox), prefixed("Files"), spoken);
    files_->setMinimumHeight(kTarget_px);
    files_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    files_->setMinimumContentsLength(12);
    files_->setPlaceholderText(ask);
    open_ = button(prefixed("Open"), tr("Open..."));
    new_ = button(prefixed("New"), tr("New..."));
    edit_ = button(prefixed("Edit"), tr("Edit..."));
    for (auto* one : {open_, new_, edit_}) {
        one->setAccessibleName(spoken + QStringLiteral(": ") + one->text());
    }
    summary_ = text_label(prefixed("Summary"), tr("%1, in short").arg(spoken));
    auto* row = row_of({files_, row_of({open_, new_, edit_})}); // the buttons go on below together
    let_grow(row, 0);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(row);
    layout->addWidget(summary_);
    connect(open_, &QPushButton::clicked, this, &FileChoice::open);
    connect(new_, &QPushButton::clicked, this, &FileChoice::wantsNew);
    connect(edit_, &QPushButton::clicked, this, [this] { Q_EMIT wantsEdit(file()); });
    connect(files_, &QComboBox::currentIndexChanged, this, &FileChoice::chosen);
    refresh();
}

void FileChoice::refresh()
{
    const auto before = file();
    const QSignalBlocker quiet(files_);
    files_->clear();
    for (const auto& file : recent_.files()) {
        files_->addItem(QFileInfo(file).completeBaseName() + QStringLiteral(" \u2013 ") + QFileInfo(file).path(), file);
    }
    files_->addItem(tr("demonstration (built in)"), kDemonstration);
    if (!before.isEmpty() && files_->findData(before) < 0) {
        add_first(before);
    }
    const bool waits = before.isEmpty() && !files_->placeholderText().isEmpty();
    files_->setCurrentIndex(waits ? -1 : std::max(0, files_->findData(before)));
}

QString FileChoice::file() const { return files_->currentData().toString(); }

void FileChoice::add_first(const QString& file)
{
    files_->insertItem(0, QFileInfo(file).completeBaseName() + QStringLiteral(" \u2013 ") + QFileInfo(file).path(),
                       file);
}

void FileChoice::choose(const QString& file)
{
    if (files_->findData(file) < 0) {
        add_first(file);
    }
    files_->setCurrentIndex(files_->findData(file));
    Q_EMIT chosen();
}

void FileChoice::forget() { files_->setCurrentIndex(-1); }

void FileChoice::remember() const
{
    if (!file().isEmpty() && file() != kDemonstration) {
        recent_.used(file());
    }
}

void FileChoice::show_summary(const QString& text, bool trouble)
{
    summary_->setText(trouble ? session::sign_of(session::Tone::fail) + u' ' + text : text);
    edit_->setEnabled(!file().isEmpty());
}

void FileChoice::open()
{
    const auto file = QFileDialog::getOpenFileName(this, tr("Open"), QFileInfo(this->file()).path(),
                                                   tr("JSON files (*.json);;All files (*)"));
    if (!file.isEmpty()) {
        choose(file);
    }
}

} // namespace zeroline::window
