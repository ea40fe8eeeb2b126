package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// mutation is one small change of a source file that a test should notice.
type mutation struct {
	file     string // absolute
	line     int
	from, to int // the bytes that are replaced
	was, now string
}

func (m mutation) String() string {
	return fmt.Sprintf("%s:%d: %s → %s", m.file, m.line, m.was, m.now)
}

// applied returns the text of the file with the change.
func (m mutation) applied(text string) string { return text[:m.from] + m.now + text[m.to:] }

// swapped is what each operator is changed to: of a comparison the boundary or the
// sense, of a sum the sign, of a condition its conjunction.
var swapped = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
	token.EQL: token.NEQ, token.NEQ: token.EQL, token.LAND: token.LOR, token.LOR: token.LAND,
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL,
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
	token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN,
}

// mutationsOf returns every change that is known for the files, in their order.
func mutationsOf(folder string, names []string) ([]mutation, error) {
	var out []mutation
	for _, name := range names {
		path := filepath.Join(folder, name)
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		found, err := mutationsIn(path, string(text))
		if err != nil {
			return nil, err
		}
		out = append(out, found...)
	}
	return out, nil
}

func mutationsIn(path, text string) ([]mutation, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, path, text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	var out []mutation
	replace := func(from, to token.Pos, now string) {
		a, b := files.Position(from), files.Position(to)
		was := text[a.Offset:b.Offset]
		out = append(out, mutation{path, a.Line, a.Offset, b.Offset, was, strings.ReplaceAll(now, oldText, was)})
	}
	ast.Inspect(file, func(node ast.Node) bool {
		if hasNoMeaning(node) {
			return false
		}
		mutate(node, replace)
		return true
	})
	return out, nil
}

// changedNumber is a number that is one more, or where that would be little a
// quarter more.
func changedNumber(text string) string {
	if value, err := strconv.ParseFloat(strings.ReplaceAll(text, "_", ""), 64); err == nil && value > 10 {
		return "(" + oldText + " * 5 / 4)"
	}
	return "(" + oldText + " + 1)"
}

// oldText stands in a change for what it replaces; no operator of Go has it.
const oldText = "$"

// hasNoMeaning reports whether what is in a node may be what it likes: how much
// room is made for what comes, of how many bits a number that is written has, and
// how a value is written for programmers.
func hasNoMeaning(node ast.Node) bool {
	switch n := node.(type) {
	case *ast.FuncDecl:
		return n.Recv != nil && n.Name.Name == "String"
	case *ast.CallExpr:
		if selector, ok := n.Fun.(*ast.SelectorExpr); ok {
			from, _ := selector.X.(*ast.Ident)
			return from != nil && from.Name == "strconv"
		}
		name, _ := n.Fun.(*ast.Ident)
		if name == nil || name.Name != "make" || len(n.Args) < 2 {
			return false
		}
		_, isMap := n.Args[0].(*ast.MapType)
		return isMap || len(n.Args) == 3
	}
	return false
}

// mutate gives the changes of one node.
func mutate(node ast.Node, replace func(from, to token.Pos, now string)) {
	operator := func(at token.Pos, op token.Token) {
		if now, ok := swapped[op]; ok {
			replace(at, at+token.Pos(len(op.String())), now.String())
		}
	}
	switch n := node.(type) {
	case *ast.BinaryExpr:
		operator(n.OpPos, n.Op)
	case *ast.AssignStmt:
		operator(n.TokPos, n.Tok)
	case *ast.UnaryExpr:
		if n.Op == token.NOT || n.Op == token.SUB {
			replace(n.OpPos, n.OpPos+1, "")
		}
	case *ast.BasicLit:
		if n.Kind == token.INT || n.Kind == token.FLOAT {
			replace(n.Pos(), n.End(), changedNumber(n.Value))
		}
	case *ast.Ident:
		if n.Name == "true" {
			replace(n.Pos(), n.End(), "false")
		}
		if n.Name == "false" {
			replace(n.Pos(), n.End(), "true")
		}
	case *ast.IfStmt:
		replace(n.Cond.Pos(), n.Cond.End(), "false && ("+oldText+")")
	case *ast.ExprStmt:
		replace(n.Pos(), n.End(), "")
	}
}
