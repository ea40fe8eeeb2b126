// Package page lays out what is printed: a [Document] is a head, a caution and blocks
// one below the other (headings, paragraphs, tables, boxes, pictures); it is broken
// into pages of a [Paper], each with the head at its top and the caution and its number
// at its foot, and written as PDF. What lays itself out, such as a drawing, takes a
// [Frame] alone.
//
//	doc := page.Document{
//		Frame:  page.Frame{Paper: page.Usual(convention), Head: page.HeadOf(info, "proposal", title), Caution: caution},
//		Blocks: []page.Block{page.Heading{Text: "What is at risk"}, page.Paragraph{Text: why}, table},
//	}
//	err := doc.WritePDF(w, created)
//
// Lengths are millimetres, the origin of a page is its top left corner. Nothing reaches
// over the margins: texts wrap, what must stay on one line gets smaller and is then
// cut, pictures are scaled. Colours are those of the draw roles, for white paper; none
// of them alone says anything. The same input gives the same pages and the same bytes;
// a date is input. Nothing here panics or fails but the writer.
package page
