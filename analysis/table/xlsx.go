package table

import (
	"io"
	"time"

	"github.com/xuri/excelize/v2"
)

// Sheet is one sheet of a workbook: lines above, a table with the heads of its columns,
// and lines below.
type Sheet struct {
	Name         string // at most 31 letters
	Above, Below []string
	heads        []string
	widths       []float64
	cells        [][]any
}

// SheetOf returns a sheet with the columns that have a name, which stands above each.
func SheetOf[R any](name string, columns []Column[R], rows []R) Sheet {
	out := Sheet{Name: name}
	for _, c := range columns {
		if c.Name != "" {
			out.heads = append(out.heads, c.Name)
			out.widths = append(out.widths, float64(max(c.Least, narrowest)))
		}
	}
	for _, row := range rows {
		var cells []any
		for _, m := range RecordOf(columns, row) {
			cells = append(cells, m.value)
		}
		out.cells = append(out.cells, cells)
	}
	return out
}

const (
	narrowest  = 9.0  // column, letters
	lineHeight = 15.0 // points
	letters    = 1.1  // that fit in the unit of a width, nearly
)

// Workbook is sheets and what the file says of itself.
type Workbook struct {
	Title, Author string
	Created       time.Time // the zero time leaves it out
	Sheets        []Sheet   // one at least
}

// WriteXLSX writes the workbook. A text is a text, whatever it begins with: nothing in it
// is taken for a formula. The same workbook gives the same bytes.
func (b Workbook) WriteXLSX(w io.Writer) error {
	book := book{File: excelize.NewFile()}
	defer book.Close()
	book.note(book.SetSheetName(book.GetSheetName(0), b.Sheets[0].Name))
	for _, s := range b.Sheets[1:] {
		_, err := book.NewSheet(s.Name)
		book.note(err)
	}
	book.styles()
	for _, s := range b.Sheets {
		book.write(s)
	}
	about := &excelize.DocProperties{Title: b.Title, Creator: b.Author}
	if !b.Created.IsZero() {
		about.Created = b.Created.UTC().Format(time.RFC3339)
		about.Modified = about.Created
	}
	book.note(book.SetDocProps(about))
	if book.err != nil {
		return book.err
	}
	_, err := book.WriteTo(w)
	return err
}

// book is a workbook that is being written, with the first error.
type book struct {
	*excelize.File
	err               error
	title, head, cell int // styles
}

func (b *book) note(err error) {
	if b.err == nil {
		b.err = err
	}
}

func (b *book) styles() {
	line := []excelize.Border{{Type: "bottom", Color: "B0B0B0", Style: 1}}
	style := func(bold bool, size float64, border []excelize.Border) int {
		id, err := b.NewStyle(&excelize.Style{
			Font: &excelize.Font{Bold: bold, Size: size}, Border: border,
			Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"},
		})
		b.note(err)
		return id
	}
	b.title, b.head, b.cell = style(true, 14, nil), style(true, 11, line), style(false, 11, nil)
}

// write writes a sheet: printed, it is as wide as one page across, its heads again on
// each.
func (b *book) write(s Sheet) {
	row := 1
	for i, text := range s.Above {
		b.line(s, row, text, i == 0)
		row++
	}
	if len(s.Above) > 0 {
		row++
	}
	head := row
	b.cells(s.Name, row, anys(s.heads), b.head)
	for _, cells := range s.cells {
		row++
		b.cells(s.Name, row, cells, b.cell)
	}
	for i, width := range s.widths {
		b.note(b.SetColWidth(s.Name, column(i), column(i), width+2))
	}
	b.frozen(s, head, row)
	row++
	for _, text := range s.Below {
		row++
		b.line(s, row, text, false)
	}
}

func column(i int) string {
	name, _ := excelize.ColumnNumberToName(i + 1) // of a number above 0 there is one
	return name
}

func cellAt(i, row int) string {
	name, _ := excelize.CoordinatesToCellName(i+1, row)
	return name
}

// line writes a text over all columns, as high as it needs.
func (b *book) line(s Sheet, row int, text string, title bool) {
	style, wide := b.cell, 0.0
	if title {
		style = b.title
	}
	for _, w := range s.widths {
		wide += (w + 2) * letters
	}
	b.cells(s.Name, row, []any{text}, style)
	b.note(b.MergeCell(s.Name, cellAt(0, row), cellAt(max(0, len(s.widths)-1), row)))
	lines := 1 + int(float64(len([]rune(text)))/max(wide, 1))
	height := lineHeight * float64(lines)
	if title {
		height *= 1.4
	}
	b.note(b.SetRowHeight(s.Name, row, min(height, 400)))
}

// cells writes a row.
func (b *book) cells(sheet string, row int, values []any, style int) {
	for i, value := range values {
		at := cellAt(i, row)
		switch v := value.(type) {
		case nil:
		case string:
			b.note(b.SetCellStr(sheet, at, v))
		default:
			b.note(b.SetCellValue(sheet, at, v))
		}
		b.note(b.SetCellStyle(sheet, at, at, style))
	}
}

// frozen keeps the heads in sight, lets rows be filtered, and sets the page.
func (b *book) frozen(s Sheet, head, last int) {
	if len(s.heads) == 0 {
		return
	}
	b.note(b.SetPanes(s.Name, &excelize.Panes{Freeze: true, YSplit: head, XSplit: 1, TopLeftCell: cellAt(1, head+1), ActivePane: "bottomRight"}))
	if last > head {
		b.note(b.AutoFilter(s.Name, cellAt(0, head)+":"+cellAt(len(s.heads)-1, last), nil))
	}
	landscape, one, none, yes := "landscape", 1, 0, true
	b.note(b.SetSheetProps(s.Name, &excelize.SheetPropsOptions{FitToPage: &yes}))
	b.note(b.SetPageLayout(s.Name, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &one, FitToHeight: &none}))
	rows := "$" + cellAt(0, head)[1:]
	b.note(b.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "'" + s.Name + "'!" + rows + ":" + rows, Scope: s.Name}))
}

func anys(texts []string) []any {
	out := make([]any, len(texts))
	for i, t := range texts {
		out[i] = t
	}
	return out
}
