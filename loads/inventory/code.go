package inventory

import "github.com/pelletier/go-toml/v2/unstable"

// CodeNamed peeks at the code profile that a file names, before the file can be
// read: the names that a profile decides are checked against its own. It reads no
// farther than it has to and finds nothing wrong; that is for Read to do. The name
// is empty where there is none.
func CodeNamed(src []byte) string {
	var p unstable.Parser
	p.Reset(withoutMark(src))
	in := "" // the table under way, "" above the first
	for p.NextExpression() {
		e := p.Expression()
		var key []string
		for it := e.Key(); it.Next(); {
			key = append(key, string(it.Node().Data))
		}
		switch {
		case e.Kind == unstable.Table && in == "site" && key[0] != "site":
			return "" // a table is written once
		case e.Kind == unstable.Table || e.Kind == unstable.ArrayTable:
			if in = "other"; len(key) == 1 && e.Kind == unstable.Table {
				in = key[0]
			}
		case e.Kind != unstable.KeyValue:
		case in == "site" && isCode(key), in == "" && len(key) > 1 && key[0] == "site" && isCode(key[1:]):
			return wording(e.Value())
		case in == "" && len(key) == 1 && key[0] == "site" && e.Value().Kind == unstable.InlineTable:
			for it := e.Value().Children(); it.Next(); {
				if k := it.Node().Key(); k.Next() && string(k.Node().Data) == "code" && k.IsLast() {
					return wording(it.Node().Value())
				}
			}
		}
	}
	return ""
}

func isCode(key []string) bool { return len(key) == 1 && key[0] == "code" }

func wording(v *unstable.Node) string {
	if v.Kind == unstable.String {
		return string(v.Data)
	}
	return ""
}
