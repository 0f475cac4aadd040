#include "gui/window/port_choice.hpp"

#include "gui/window/page_parts.hpp"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include <filesystem>

namespace zeroline::window {

using session::PortsModel;

namespace {

constexpr int kLookAtPortsEvery_ms = 1000;

} // namespace

PortChoice::PortChoice(QWidget* parent) : QWidget(parent)
{
    ports_ = named(new QComboBox, "ports", tr("port"));
    ports_->setMinimumHeight(kTarget_px);
    ports_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    ports_->setModel(&model_);
    ports_->setEditable(true);
    ports_->setInsertPolicy(QComboBox::NoInsert);
    ports_->lineEdit()->setAccessibleName(tr("port, chosen or typed"));
    ports_->lineEdit()->setPlaceholderText(tr("choose the port"));
    says_ = text_label("portSays", tr("why the run cannot begin yet"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(ports_);
    layout->addWidget(says_);
    connect(ports_, &QComboBox::currentTextChanged, this, &PortChoice::say);
    // A long name is read from its beginning.
    connect(ports_, &QComboBox::currentIndexChanged, this, [this] { ports_->lineEdit()->setCursorPosition(0); });
    connect(&look_, &QTimer::timeout, this, &PortChoice::refresh);
    look_.setInterval(kLookAtPortsEvery_ms);
    choose({});
}

void PortChoice::choose(const std::string& path)
{
    model_.offer(path);
    ports_->setCurrentIndex(path.empty() ? -1 : model_.row_of(path));
    if (path.empty()) {
        ports_->setEditText({});
    }
    say();
}

std::string PortChoice::port() const
{
    const auto text = ports_->currentText().trimmed();
    const int listed = text.isEmpty() ? -1 : ports_->findText(text);
    return listed >= 0 ? model_.path_at(listed) : text.toStdString();
}

QString PortChoice::why_it_waits() const
{
    const auto chosen = port();
    if (chosen.empty()) {
        return tr("Begin waits for a port: choose that of the instrument, or the virtual bench, which needs none.");
    }
    const bool there = chosen == PortsModel::kVirtualBench || std::filesystem::exists(chosen);
    return there ? QString()
                 : tr("Begin waits for %1, which is not there: plug the instrument in, or choose another port.")
                       .arg(QString::fromStdString(chosen));
}

void PortChoice::say()
{
    says_->setText(why_it_waits());
    says_->setVisible(!says_->text().isEmpty());
    Q_EMIT changed();
}

void PortChoice::refresh()
{
    // What a person types must not be taken away; what is listed may come to read otherwise, as missing or no more.
    const auto text = ports_->currentText();
    const bool listed = !text.isEmpty() && ports_->findText(text.trimmed()) >= 0;
    const auto path = port();
    model_.refresh();
    if (const int row = model_.row_of(path); listed && row >= 0) {
        ports_->setCurrentIndex(row);
    } else if (ports_->currentText() != text) {
        ports_->setEditText(text);
    }
    say();
}

void PortChoice::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    look_.start();
}

void PortChoice::hideEvent(QHideEvent* event)
{
    look_.stop();
    QWidget::hideEvent(event);
}

} // namespace zeroline::window
