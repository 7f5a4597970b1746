module example.org/locknut

go 1.26.0

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/alecthomas/chroma/v2 v2.27.0
	github.com/alecthomas/kong v1.17.0
	github.com/bep/imagemeta v1.0.1
	github.com/kovidgoyal/imaging v1.9.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/toml-lang/toml-test/v2 v2.2.0
	github.com/yuin/goldmark v1.8.7
	golang.org/x/sys v0.50.0
	gonum.org/v1/gonum v0.17.0
)

require (
	github.com/dlclark/regexp2/v2 v2.2.1 // indirect
	github.com/kovidgoyal/go-parallel v1.1.1 // indirect
	github.com/kovidgoyal/go-shm v1.0.0 // indirect
	github.com/rwcarlsen/goexif v0.0.0-20190401172101-9e8deecbddbd // indirect
	golang.org/x/image v0.47.0 // indirect
	golang.org/x/text v0.43.0 // indirect
	golang.org/x/tools v0.51.0 // indirect
)
