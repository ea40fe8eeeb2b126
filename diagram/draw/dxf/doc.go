// Package dxf writes a picture for drawing programs, as a DXF of release 2007 in text
// (AC1021): the same strokes as every other painter draws, in millimetres, lines as
// LWPOLYLINE with their widths and patterns, circles and arcs as bulges of those, fills
// as HATCH, text as TEXT. Entities lie on layers by what they belong to. Fills that only
// hide what lies below them, of the paper and of cards, are left out, and so are images.
//
// What is written is deterministic. The form is that of Autodesk's “DXF Reference” for
// release 2007 (from memory), held against the audit of an independent reader in the
// tests. The only errors are the writer's.
package dxf
