package cli

import (
	"fmt"
	"runtime/debug"
)

// stamp says what a program was built from: its version, and the revision of the
// source where the builder noted it.
func stamp(info *debug.BuildInfo) string {
	version := "(devel)"
	if info == nil {
		return version
	}
	if info.Main.Version != "" {
		version = info.Main.Version
	}
	noted := map[string]string{}
	for _, x := range info.Settings {
		noted[x.Key] = x.Value
	}
	if noted["vcs.revision"] == "" {
		return version
	}
	says := fmt.Sprintf("%s (revision %s", version, noted["vcs.revision"])
	if t := noted["vcs.time"]; t != "" {
		says += " of " + t
	}
	if noted["vcs.modified"] == "true" {
		says += ", with changes since"
	}
	return says + ")"
}

func version() string {
	info, _ := debug.ReadBuildInfo()
	return stamp(info)
}
