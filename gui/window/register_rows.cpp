#include "gui/window/register_rows.hpp"

#include "acquisition/trace/visible_text.hpp"
#include "gui/session/record_tree.hpp"
#include "gui/session/table_text.hpp"

#include <QCoreApplication>

namespace zeroline::window {

using session::Tone;
using unit_register::Part;
using unit_register::Rows;

namespace {

struct RegisterText {
    Q_DECLARE_TR_FUNCTIONS(RegisterText)
};

struct StateWord {
    const char *word, *shown;
    Tone tone;
    const char* sign = ""; ///< a colour never stands alone
};

/// Of due().
constexpr StateWord kStates[] = {
    {"overdue", QT_TRANSLATE_NOOP("RegisterText", "overdue"), Tone::conditional, "! "},
    {"due", QT_TRANSLATE_NOOP("RegisterText", "due"), Tone::none},
    {"kept out of use", QT_TRANSLATE_NOOP("RegisterText", "kept out of use"), Tone::critical, "\u26A0 "},
    {"not released", QT_TRANSLATE_NOOP("RegisterText", "not released"), Tone::fail, "\u2717 "},
    {"never checked here", QT_TRANSLATE_NOOP("RegisterText", "never checked here"), Tone::conditional, "? "},
    {"no interval set", QT_TRANSLATE_NOOP("RegisterText", "no interval set"), Tone::none},
};

/// Of an instrument.
constexpr StateWord kSuspected[] = {
    {"suspected", QT_TRANSLATE_NOOP("RegisterText", "suspected"), Tone::conditional, "! "}};

/// What a check is for.
constexpr StateWord kOccasions[] = {
    {"pre-delivery", QT_TRANSLATE_NOOP("RegisterText", "pre-delivery"), Tone::none},
    {"periodic", QT_TRANSLATE_NOOP("RegisterText", "periodic"), Tone::none},
    {"home-visit", QT_TRANSLATE_NOOP("RegisterText", "home visit"), Tone::none},
};

/// Where a record is from.
constexpr StateWord kOrigins[] = {
    {"captured-here", QT_TRANSLATE_NOOP("RegisterText", "captured here"), Tone::none},
    {"simulated", QT_TRANSLATE_NOOP("RegisterText", "SIMULATED"), Tone::conditional, "! "},
    {"imported", QT_TRANSLATE_NOOP("RegisterText", "IMPORTED"), Tone::conditional, "! "},
};

template <std::size_t Count> const StateWord* found(const StateWord (&words)[Count], const Rows& value)
{
    for (const auto& one : words) {
        if (value == one.word) {
            return &one;
        }
    }
    return nullptr;
}

const StateWord* known_word(const std::string& key, const Rows& value)
{
    return key == "state"       ? found(kStates, value)
           : key == "origin"    ? found(kOrigins, value)
           : key == "suspected" ? found(kSuspected, value)
           : key == "occasion"  ? found(kOccasions, value)
                                : nullptr;
}

} // namespace

Tone register_tone(const std::string& key, const Rows& value)
{
    if (const auto* known = known_word(key, value)) {
        return known->tone;
    }
    return key == "verdict" && value.is_string()
               ? session::tone_of(session::outcome_named(QString::fromStdString(value.get<std::string>())))
               : Tone::none;
}

QString register_text(const std::string& key, const Rows& value)
{
    if (value.is_null()) {
        return QStringLiteral("\u2013");
    }
    if (!value.is_string()) {
        return QString::fromStdString(value.dump());
    }
    if (const auto* known = known_word(key, value)) {
        return QString::fromUtf8(known->sign) + RegisterText::tr(known->shown);
    }
    const auto text = QString::fromStdString(value.get<std::string>());
    if (key == "verdict") {
        const auto outcome = session::outcome_named(text);
        return session::sign_of(outcome) + u' ' + session::ResultWords(session::Reader::screen).outcome(outcome);
    }
    return QString::fromStdString(trace::visible_on_one_line(text.toStdString()));
}

RegisterRows::RegisterRows(RegisterReader& reader, QObject* parent)
    : QAbstractTableModel(parent), reader_(reader), asked_(std::make_shared<std::atomic<int>>(0))
{
}

RegisterRows::~RegisterRows() { ++*asked_; }

void RegisterRows::show(std::vector<Column> columns, Fetch fetch, const std::string& search)
{
    beginResetModel();
    ++*asked_;
    columns_ = std::move(columns);
    fetch_ = std::move(fetch);
    search_ = search;
    rows_.clear();
    whole_ = false;
    fetching_ = false;
    endResetModel();
    fetchMore({});
}

void RegisterRows::put(std::vector<Column> columns, Rows rows)
{
    beginResetModel();
    ++*asked_;
    columns_ = std::move(columns);
    fetch_ = [rows](const unit_register::UnitRegister&, const Part&) { return rows; };
    rows_.assign(rows.begin(), rows.end());
    whole_ = true;
    fetching_ = false;
    endResetModel();
}

bool RegisterRows::canFetchMore(const QModelIndex& parent) const
{
    return !parent.isValid() && !whole_ && !fetching_ && fetch_;
}

void RegisterRows::fetchMore(const QModelIndex& parent)
{
    if (!canFetchMore(parent)) {
        return;
    }
    fetching_ = true;
    const Part part{search_, static_cast<std::int64_t>(rows_.size()), kPage};
    reader_.ask<Rows>([fetch = fetch_, part](const auto& units) { return fetch(units, part); },
                      [this](const Rows& page) { take(page); },
                      [asked = asked_, mine = asked_->load()] { return asked->load() == mine; });
}

void RegisterRows::take(const Rows& page)
{
    fetching_ = false;
    whole_ = page.size() < static_cast<std::size_t>(kPage);
    if (!page.empty()) {
        beginInsertRows({}, rowCount(), rowCount() + static_cast<int>(page.size()) - 1);
        rows_.insert(rows_.end(), page.begin(), page.end());
        endInsertRows();
    }
    Q_EMIT fetched();
}

void RegisterRows::ask_for_csv(std::function<void(const QString& csv)> take)
{
    reader_.ask<Rows>([fetch = fetch_, search = search_](const auto& units) { return fetch(units, Part{search}); },
                      [columns = columns_, take = std::move(take), &reader = reader_](const Rows& rows) {
                          RegisterRows whole(reader);
                          whole.put(columns, rows);
                          take(session::as_csv(whole));
                      });
}

int RegisterRows::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int RegisterRows::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(columns_.size());
}

QVariant RegisterRows::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const auto& key = columns_[static_cast<std::size_t>(index.column())].key;
    const auto& row = rows_[static_cast<std::size_t>(index.row())];
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole) {
        return register_text(key, row[key]);
    }
    return role == ToneRole ? QVariant(static_cast<int>(register_tone(key, row[key]))) : QVariant();
}

QVariant RegisterRows::headerData(int section, Qt::Orientation orientation, int role) const
{
    return (role == Qt::DisplayRole || role == Qt::ToolTipRole) && orientation == Qt::Horizontal
               ? QVariant(columns_[static_cast<std::size_t>(section)].heading)
               : QVariant();
}

} // namespace zeroline::window
