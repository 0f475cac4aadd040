#include "gui/session/table_text.hpp"

#include <QStringListModel>

#include <gtest/gtest.h>

namespace zeroline::session {
namespace {

/// Two columns with every character that a table must not fall over.
class Ugly : public QAbstractTableModel {
public:
    int rowCount(const QModelIndex& /*parent*/ = {}) const override { return 2; }
    int columnCount(const QModelIndex& /*parent*/ = {}) const override { return 2; }
    QVariant data(const QModelIndex& index, int role) const override
    {
        static const char* const cells[2][2] = {{"pressure", "+1,5"}, {"a \"word\"", "two\nlines"}};
        return role == Qt::DisplayRole ? QVariant(QString(cells[index.row()][index.column()])) : QVariant();
    }
    QVariant headerData(int section, Qt::Orientation /*across*/, int /*role*/) const override
    {
        return section == 0 ? "quantity" : "worst";
    }
};

TEST(TableText, IsOneLineARowWithTabsBetween)
{
    EXPECT_EQ(as_text(Ugly()).toStdString(), "quantity\tworst\npressure\t+1,5\na \"word\"\ttwo lines\n");
}

/// RFC 4180, 2: records end with CRLF; fields with a comma, a quote or a line break stand in quotes, a quote doubled.
TEST(TableText, IsCsvAsTheStandardHasIt)
{
    EXPECT_EQ(as_csv(Ugly()).toStdString(),
              "quantity,worst\r\npressure,\"+1,5\"\r\n\"a \"\"word\"\"\",\"two\nlines\"\r\n");
}

} // namespace
} // namespace zeroline::session
