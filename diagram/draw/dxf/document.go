package dxf

import (
	"bytes"
	"fmt"
	"io"
	"slices"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Document says how a picture is written.
type Document struct {
	Palette draw.Palette
	// Layer names the layer of what lies in a group: letters, digits, - and _. Empty
	// leaves it to the group around. Nil puts all on the layer 0, as what is in no
	// group that has one.
	Layer func(group string) string
}

// textLayer is that of all text.
const textLayer = "text"

// Write writes the picture.
func (d Document) Write(w io.Writer, picture *draw.Picture) error {
	bounds := picture.Bounds()
	if bounds.IsEmpty() {
		bounds = geom.Rect{}
	}
	var entities, out bytes.Buffer
	p := &painter{document: d, foot: bounds.Min.Y + bounds.Max.Y, layers: []string{"0"}, file: file{&entities, firstHandle}}
	draw.Paint(picture, p)
	slices.Sort(p.layers)
	f := file{&out, tableHandle}
	f.head(bounds, p.file.next())
	f.tables(p.layers, p.patterns)
	f.blocks()
	f.section("ENTITIES", func() { out.Write(entities.Bytes()) })
	f.objects()
	f.pair(0, "EOF")
	_, err := w.Write(out.Bytes())
	return err
}

// Handles of what entities belong to; those of entities begin above.
const (
	modelRecord = 0x20
	rootHandle  = 0x22
	groupHandle = 0x23
	tableHandle = 0x100
	firstHandle = 0x1000
)

// file writes pairs of a code and a value, a line to each.
type file struct {
	to     io.Writer
	handle int // the last one that was given
}

// next returns a handle that nothing has.
func (f *file) next() int {
	f.handle++
	return f.handle
}

// pair writes a value under its code. What is written to is memory.
func (f *file) pair(code int, value any) {
	switch v := value.(type) {
	case float64:
		value = number(v)
	case int:
		if code == 5 || code == 105 || code == 330 || code == 350 {
			value = fmt.Sprintf("%X", v)
		}
	}
	fmt.Fprintf(f.to, "%d\n%v\n", code, value)
}

// pairs writes codes and values in turn.
func (f *file) pairs(list ...any) {
	for i := 0; i+1 < len(list); i += 2 {
		f.pair(list[i].(int), list[i+1])
	}
}

func (f *file) section(name string, write func()) {
	f.pairs(0, "SECTION", 2, name)
	write()
	f.pair(0, "ENDSEC")
}

func (f *file) head(bounds geom.Rect, next int) {
	f.section("HEADER", func() {
		f.pairs(9, "$ACADVER", 1, "AC1021", 9, "$DWGCODEPAGE", 3, "ANSI_1252", 9, "$HANDSEED", 5, next,
			9, "$INSUNITS", 70, 4, 9, "$MEASUREMENT", 70, 1,
			9, "$EXTMIN", 10, bounds.Min.X, 20, bounds.Min.Y, 30, 0.0, 9, "$EXTMAX", 10, bounds.Max.X, 20, bounds.Max.Y, 30, 0.0)
	})
	f.section("CLASSES", func() {})
}

// table writes a table of records.
func (f *file) table(name string, count int, record func(i int)) {
	owner, code := f.next(), 5
	f.pairs(0, "TABLE", 2, name, 5, owner, 330, "0", 100, "AcDbSymbolTable", 70, count)
	if name == "DIMSTYLE" {
		code = 105
		f.pair(100, "AcDbDimStyleTable")
	}
	for i := range count {
		handle := f.next()
		if name == "BLOCK_RECORD" { // entities name the one that they lie in
			handle = modelRecord + i
		}
		f.pairs(0, name, code, handle, 330, owner, 100, "AcDbSymbolTableRecord")
		record(i)
	}
	f.pair(0, "ENDTAB")
}

func (f *file) tables(layers []string, patterns []pattern) {
	f.section("TABLES", func() {
		f.table("VPORT", 0, nil)
		f.table("LTYPE", 3+len(patterns), func(i int) { f.lineType(i, patterns) })
		f.table("LAYER", len(layers), func(i int) {
			f.pairs(100, "AcDbLayerTableRecord", 2, layers[i], 70, 0, 62, 7, 6, "Continuous")
		})
		f.table("STYLE", 2, func(i int) {
			f.pairs(100, "AcDbTextStyleTableRecord", 2, styles[i].name, 70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 2.5, 3, styles[i].font, 4, "")
		})
		f.table("VIEW", 0, nil)
		f.table("UCS", 0, nil)
		f.table("APPID", 1, func(int) { f.pairs(100, "AcDbRegAppTableRecord", 2, "ACAD", 70, 0) })
		f.table("DIMSTYLE", 1, func(int) { f.pairs(100, "AcDbDimStyleTableRecord", 2, "Standard", 70, 0) })
		f.table("BLOCK_RECORD", 2, func(i int) { f.pairs(100, "AcDbBlockTableRecord", 2, spaces[i]) })
	})
}

// styles are those of text, regular and bold.
var styles = []struct{ name, font string }{{"Standard", "DejaVuSans.ttf"}, {"Bold", "DejaVuSans-Bold.ttf"}}

// spaces are what entities lie in.
var spaces = []string{"*Model_Space", "*Paper_Space"}

// lineType writes one of the three that there must be, or a pattern.
func (f *file) lineType(i int, patterns []pattern) {
	f.pair(100, "AcDbLinetypeTableRecord")
	if i < 3 {
		f.pairs(2, []string{"ByBlock", "ByLayer", "Continuous"}[i], 70, 0, 3, "", 72, 65, 73, 0, 40, 0.0)
		return
	}
	p := patterns[i-3]
	f.pairs(2, p.name(), 70, 0, 3, "", 72, 65, 73, 2, 40, p.ink+p.gap, 49, p.ink, 74, 0, 49, -p.gap, 74, 0)
}

func (f *file) blocks() {
	f.section("BLOCKS", func() {
		for i, name := range spaces {
			owner := modelRecord + i
			f.pairs(0, "BLOCK", 5, f.next(), 330, owner, 100, "AcDbEntity", 8, "0", 100, "AcDbBlockBegin",
				2, name, 70, 0, 10, 0.0, 20, 0.0, 30, 0.0, 3, name, 1, "")
			f.pairs(0, "ENDBLK", 5, f.next(), 330, owner, 100, "AcDbEntity", 8, "0", 100, "AcDbBlockEnd")
		}
	})
}

func (f *file) objects() {
	f.section("OBJECTS", func() {
		f.pairs(0, "DICTIONARY", 5, rootHandle, 330, "0", 100, "AcDbDictionary", 281, 1, 3, "ACAD_GROUP", 350, groupHandle)
		f.pairs(0, "DICTIONARY", 5, groupHandle, 330, rootHandle, 100, "AcDbDictionary", 281, 1)
	})
}
