module costrel

go 1.26

require (
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/cwbudde/qmc v0.2.0 // indirect
	github.com/danielgtaylor/huma/v2 v2.37.2 // indirect
	github.com/goccy/go-yaml v1.19.2 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	go.uber.org/goleak v1.3.0 // indirect
	golang.org/x/sys v0.41.0 // indirect
	golang.org/x/tools v0.30.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
