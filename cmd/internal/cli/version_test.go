package cli

import (
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTheVersionNamesTheSource(t *testing.T) {
	built := func(version string, settings ...debug.BuildSetting) *debug.BuildInfo {
		return &debug.BuildInfo{Main: debug.Module{Version: version}, Settings: settings}
	}
	at := debug.BuildSetting{Key: "vcs.revision", Value: "8f3c2a"}
	when := debug.BuildSetting{Key: "vcs.time", Value: "2026-03-14T09:26:53Z"}
	for want, info := range map[string]*debug.BuildInfo{
		"(devel)": nil,
		"v1.2.0":  built("v1.2.0"),
		"v1.2.0 (revision 8f3c2a of 2026-03-14T09:26:53Z)":                      built("v1.2.0", at, when),
		"(devel) (revision 8f3c2a of 2026-03-14T09:26:53Z, with changes since)": built("", at, when, debug.BuildSetting{Key: "vcs.modified", Value: "true"}),
	} {
		require.Equal(t, want, stamp(info))
	}
	require.Equal(t, "Mar 2026", sourceDate(built("", at, when)))
	require.Empty(t, sourceDate(built("")))
	require.Empty(t, sourceDate(nil))
}
