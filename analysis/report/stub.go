package report
import ("io")
func writeProposal(out io.Writer, w *Work, format Format) error { return w.errRecords("x") }
func writeWorkSheets(out io.Writer, w *Work, format Format) error { return nil }
