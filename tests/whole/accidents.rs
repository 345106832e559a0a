//! What goes wrong on a machine: runs that are killed, disks that are full, places that can't be written; and the exit
//! statuses. Whatever happens, a bound folder is one edition whole.

use crate::bench::{Book, PROGRAM, files_below, ran, run};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

type Edition = BTreeMap<String, Vec<u8>>;

/// A handbook of many small lessons, so that writing it takes a good part of the time that binding it takes.
fn thick() -> Book {
    let book = Book::sound();
    for number in 0..150 {
        let text = format!("---\ntitle: Lesson {number}\n---\n{}\n", "Read the gauge, then the table.\n".repeat(40));
        book.put(&format!("lessons/coil/lesson-{number}.md"), &text);
    }
    book
}

fn start(book: &Book) -> Child {
    Command::new(PROGRAM)
        .args(["bind", "book"])
        .current_dir(book.beside())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Folders beside the bound one in which an edition is made ready.
fn workshops(beside: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(beside).unwrap().map(|entry| entry.unwrap().path());
    entries.filter(|path| path.file_name().unwrap().to_string_lossy().starts_with(".bound.")).collect()
}

/// Numbers that look like chance and are the same on every run (Marsaglia's xorshift).
struct Chance(u64);

impl Chance {
    fn upto(&mut self, most: Duration) -> Duration {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        most.mul_f64((self.0 >> 11) as f64 / (1u64 << 53) as f64)
    }
}

#[test]
fn a_run_killed_at_any_moment_leaves_one_edition_whole() {
    let book = thick();
    let bound = book.beside().join("bound");
    let mut editions: Vec<Edition> = Vec::new();
    let mut takes = Duration::ZERO;
    for edition in ["2026-11", "2026-12"] {
        let front = fs::read_to_string(book.folder().join("handbook.yaml")).unwrap();
        book.put("handbook.yaml", &front.replace("2026-11", edition));
        let begun = Instant::now();
        book.run(&["bind", "book"]).ended(0);
        takes = begun.elapsed();
        editions.push(files_below(&bound));
    }
    assert!(editions[0] != editions[1] && editions[0].len() > 150);
    let mut chance = Chance(0x2026_1125);
    let mut found = [0, 0];
    let mut cut_short = 0;
    // How long a run takes now: a machine with other work takes longer than it did, and every moment must have its turn.
    let mut span = takes;
    for round in 0..200 {
        let front = fs::read_to_string(book.folder().join("handbook.yaml")).unwrap();
        let (now, next) = if round % 2 == 0 { ("2026-12", "2026-11") } else { ("2026-11", "2026-12") };
        book.put("handbook.yaml", &front.replace(now, next));
        let mut child = start(&book);
        // Half of the runs are killed at any moment, the others once writing has begun, where the danger lies.
        if round % 4 < 2 {
            sleep(chance.upto(span));
        } else {
            let begun = Instant::now();
            let own = format!(".bound.binding-{}-0", child.id());
            while !book.beside().join(&own).exists() && begun.elapsed() < span * 3 {
                std::thread::yield_now();
            }
            sleep(chance.upto(span / 3));
        }
        child.kill().unwrap();
        let status = child.wait().unwrap();
        let cut = status.code().is_none();
        cut_short += usize::from(cut);
        span = span.mul_f64(if cut { 1.04 } else { 0.93 });
        let stands = files_below(&bound);
        let which = editions.iter().position(|edition| *edition == stands);
        let which = which.unwrap_or_else(|| panic!("round {round}: neither edition whole, {} files", stands.len()));
        found[which] += 1;
    }
    assert!(cut_short > 50, "only {cut_short} of 200 runs were cut short: the test shows little");
    assert!(found[0] > 0 && found[1] > 0, "{found:?}: the other edition never came to stand");
    book.run(&["bind", "book"]).ended(0);
    assert_eq!(workshops(book.beside()), Vec::<PathBuf>::new(), "what killed runs left is not cleared away");
}

#[test]
fn two_runs_at_once_leave_one_edition_whole() {
    let book = thick();
    book.run(&["bind", "book"]).ended(0);
    let edition = files_below(&book.beside().join("bound"));
    for _ in 0..5 {
        let mut runs = [start(&book), start(&book), start(&book)];
        let statuses: Vec<_> = runs.iter_mut().map(|run| run.wait().unwrap().code()).collect();
        assert!(statuses.contains(&Some(0)), "{statuses:?}");
        assert!(files_below(&book.beside().join("bound")) == edition, "{statuses:?}");
    }
    book.run(&["bind", "book"]).ended(0);
    assert_eq!(workshops(book.beside()), Vec::<PathBuf>::new());
}

/// A limit on the size of files that a run may write is as near to a full disk as one comes without being root.
#[cfg(unix)]
#[test]
fn a_disk_that_is_full_leaves_the_edition_before_and_ends_with_status_3() {
    let book = thick();
    book.run(&["bind", "book"]).ended(0);
    let before = files_below(&book.beside().join("bound"));
    book.change("handbook.yaml", "2026-11", "2026-12");
    // Without the signal a write past the limit fails, as it does on a full disk.
    let script = format!("trap '' XFSZ; ulimit -f 8; exec '{PROGRAM}' bind book");
    let ran = ran(Command::new("sh").args(["-c", &script]).current_dir(book.beside())).ended(3);
    assert!(ran.err.starts_with("coldpress: could not write `"), "{}", ran.told());
    assert!(files_below(&book.beside().join("bound")) == before);
    assert_eq!(workshops(book.beside()), Vec::<PathBuf>::new(), "half an edition is left beside it");
}

/// Runs `script` where folders can be mounted that nobody else sees: as root, on Linux. None where that is not allowed, which is
/// said.
#[cfg(target_os = "linux")]
#[allow(clippy::print_stderr, reason = "a test that can't be made says so")]
fn where_folders_can_be_mounted(book: &Book, script: &str) -> Option<crate::bench::Ran> {
    let mounts =
        |script: &str| ran(Command::new("unshare").args(["--mount", "sh", "-euc", script]).current_dir(book.beside()));
    fs::create_dir(book.beside().join("shelf")).unwrap();
    let allowed = Command::new("unshare").arg("--version").output().is_ok()
        && mounts("mount -t tmpfs -o size=1m tmpfs shelf").status == Some(0);
    if !allowed {
        eprintln!("not tried: this user may mount nothing here");
        return None;
    }
    Some(mounts(script))
}

#[cfg(target_os = "linux")]
#[test]
fn a_disk_of_its_own_that_fills_up_keeps_the_edition_before() {
    let book = thick();
    book.run(&["bind", "book"]).ended(0);
    let before = files_below(&book.beside().join("bound"));
    // One edition fits on it, and not two.
    let pages: usize = before.values().map(|bytes| bytes.len().div_ceil(4096)).sum();
    let script = format!(
        "mount -t tmpfs -o size={size}k tmpfs shelf
         '{PROGRAM}' bind book --into shelf/bound >/dev/null
         sed -i s/2026-11/2026-12/ book/handbook.yaml
         status=0; '{PROGRAM}' bind book --into shelf/bound || status=$?
         ls -A shelf; cp -r shelf/bound kept; exit $status",
        size = pages * 4 * 3 / 2
    );
    let Some(ran) = where_folders_can_be_mounted(&book, &script) else { return };
    let ran = ran.ended(3);
    assert!(ran.err.starts_with("coldpress: could not write `shelf/"), "{}", ran.told());
    assert!(ran.err.contains("No space left on device"), "{}", ran.told());
    assert_eq!(ran.out, "bound\n", "half an edition is left beside it");
    assert!(files_below(&book.beside().join("kept")) == before);
}

#[cfg(target_os = "linux")]
#[test]
fn a_disk_that_is_read_only_is_read_from_and_never_written() {
    let book = Book::sound();
    book.run(&["bind", "book"]).ended(0);
    let before = files_below(&book.beside().join("bound"));
    let script = format!(
        "mount -t tmpfs tmpfs shelf
         cp -r book shelf/book
         '{PROGRAM}' bind book --into shelf/bound >/dev/null
         mount -o remount,ro shelf
         '{PROGRAM}' proof shelf/book >/dev/null
         '{PROGRAM}' bind shelf/book --into elsewhere >/dev/null
         sed -i s/2026-11/2026-12/ book/handbook.yaml
         status=0; '{PROGRAM}' bind book --into shelf/bound || status=$?
         '{PROGRAM}' bind book --into shelf/another && exit 9
         '{PROGRAM}' begin shelf/new && exit 9
         cp -r shelf/bound kept; exit $status"
    );
    let Some(ran) = where_folders_can_be_mounted(&book, &script) else { return };
    let ran = ran.ended(3);
    let lines: Vec<&str> = ran.err.lines().collect();
    assert_eq!(lines.len(), 3, "{}", ran.told());
    for line in lines {
        assert!(line.starts_with("coldpress: could not make the folder `shelf/"), "{}", ran.told());
        assert!(line.contains("Read-only file system"), "{}", ran.told());
    }
    assert!(files_below(&book.beside().join("kept")) == before);
    assert!(files_below(&book.beside().join("elsewhere")) == before);
}

#[test]
fn a_place_whose_name_is_longer_than_a_disk_takes() {
    let book = Book::sound();
    let long = "kalt".repeat(70);
    let ran = book.run(&["bind", "book", "--into", &long]).ended(3);
    assert!(ran.err.starts_with("coldpress: could not "), "{}", ran.told());
    assert!(ran.err.contains("too long"), "{}", ran.told());
    // As long as one takes, and deep below others.
    let longest = "k".repeat(255);
    for into in [longest.clone(), format!("{longest}/{longest}/{longest}")] {
        book.run(&["bind", "book", "--into", &into]).ended(0);
        assert!(book.beside().join(&into).join("index.html").is_file());
    }
    assert!(!book.beside().join("bound").exists());
}

#[test]
fn a_place_that_is_a_file_or_lies_in_one() {
    let book = Book::sound();
    fs::write(book.beside().join("taken"), "x").unwrap();
    let ran = book.run(&["bind", "book", "--into", "taken/bound"]).ended(3);
    assert!(ran.err.contains("`taken"), "{}", ran.told());
    let ran = book.run(&["bind", "book", "--into", "taken"]).ended(2);
    assert!(ran.err.contains("`taken` is not a bound handbook"), "{}", ran.told());
    assert_eq!(fs::read(book.beside().join("taken")).unwrap(), b"x");
}

#[test]
fn a_folder_of_something_else_is_left_alone() {
    let book = Book::sound();
    fs::create_dir(book.beside().join("home")).unwrap();
    fs::write(book.beside().join("home/letter.txt"), "dear").unwrap();
    let ran = book.run(&["bind", "book", "--into", "home"]).ended(2);
    assert!(ran.err.contains("`home` is not a bound handbook"), "{}", ran.told());
    assert_eq!(files_below(&book.beside().join("home")).len(), 1);
    let ran = book.run(&["bind", "book", "--into", "book"]).ended(2);
    assert!(ran.err.contains("`book` is not a bound handbook"), "{}", ran.told());
}

#[test]
fn a_handbook_with_an_error_leaves_the_edition_before() {
    let book = Book::sound();
    let nothing = book.beside().join("bound");
    book.change("lessons/coil/superheat.md", "[21.5 °F]", "[21.7 °F]");
    let ran = book.run(&["bind", "book"]).ended(1);
    assert!(ran.out.contains("Not bound: 1 error."), "{}", ran.told());
    assert!(!nothing.exists());
    book.change("lessons/coil/superheat.md", "[21.7 °F]", "[21.5 °F]");
    book.run(&["bind", "book"]).ended(0);
    let before = files_below(&nothing);
    book.change("lessons/coil/superheat.md", "[21.5 °F]", "[21.7 °F]");
    book.run(&["bind", "book"]).ended(1);
    assert!(files_below(&nothing) == before);
}

#[test]
fn names_with_spaces_accents_and_quotes() {
    for name in ["Larkmoor notes", "Kälte – Übung", "冷凍", "it's \"here\" & <there> %20 #1", "-notes"] {
        let book = Book::sound();
        fs::rename(book.folder(), book.beside().join(name)).unwrap();
        let into = format!("made/{name}");
        run(book.beside(), &["bind", "--into", &into, "--", name]).ended(0);
        assert!(book.beside().join(&into).join("index.html").is_file(), "{name}");
        run(book.beside(), &["proof", "--", name]).ended(0);
    }
}

/// As another user, since root may write anywhere.
#[cfg(unix)]
#[test]
fn a_place_that_may_not_be_written() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    use std::os::unix::process::CommandExt;
    let book = Book::sound();
    // The program may lie where another user can't reach it.
    let program = book.beside().join("program");
    fs::copy(PROGRAM, &program).unwrap();
    let allow = |path: &Path, mode: u32| fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    allow(book.beside(), 0o755);
    let root = fs::metadata(book.beside()).unwrap().uid() == 0;
    fs::create_dir(book.beside().join("shelf")).unwrap();
    book.run(&["bind", "book", "--into", "shelf/bound"]).ended(0);
    let before = files_below(&book.beside().join("shelf"));
    allow(&book.beside().join("shelf"), 0o555);
    let nobody = |arguments: &[&str]| {
        let mut command = Command::new(&program);
        command.args(arguments).current_dir(book.beside());
        if root {
            command.uid(65534).gid(65534);
        }
        ran(&mut command)
    };
    let denied = nobody(&["bind", "book", "--into", "shelf/bound"]).ended(3);
    assert!(denied.err.starts_with("coldpress: could not "), "{}", denied.told());
    assert!(denied.err.contains("`shelf") && denied.err.contains("ermission denied"), "{}", denied.told());
    assert!(files_below(&book.beside().join("shelf")) == before);
    // A file of the handbook that may not be read.
    allow(&book.folder().join("terms.yaml"), 0o000);
    let denied = nobody(&["proof", "book"]).ended(3);
    assert!(denied.err.contains("could not read `book/terms.yaml`"), "{}", denied.told());
    allow(&book.beside().join("shelf"), 0o755);
}

#[test]
fn statuses_0_1_2_and_3() {
    let book = Book::sound();
    book.run(&["proof", "book"]).ended(0);
    book.run(&["--help"]).ended(0);
    book.run(&["--version"]).ended(0);
    // A warning does not stand in the way.
    book.put("lessons/coil/late.md", "---\ntitle: Late\n---\n#### Deep\n\nText.\n");
    let ran = book.run(&["proof", "book"]).ended(0);
    assert!(ran.err.contains("warning[heading-level]"), "{}", ran.told());
    book.put("lessons/coil/late.md", "No head.\n");
    book.run(&["proof", "book"]).ended(1);
    for wrong in [
        &[][..],
        &["prove", "book"],
        &["proof", "nowhere"],
        &["proof", "--fast"],
        &["bind", "book", "--into"],
        &["begin"],
    ] {
        let ran = book.run(wrong).ended(2);
        assert!(!ran.err.is_empty(), "{wrong:?}: {}", ran.told());
    }
    let ran = book.run(&["proof", "nowhere"]).ended(2);
    assert!(ran.err.contains("there is no folder `nowhere`; `coldpress begin DIR`"), "{}", ran.told());
    // Not text: the machine's fault, or the copying's, and not the author's.
    fs::write(book.folder().join("values.yaml"), b"superheat-range:\n  is: \xff\xfe\n").unwrap();
    let ran = book.run(&["proof", "book"]).ended(3);
    assert!(ran.err.contains("values.yaml` is not UTF-8 text: the first bad byte is number 23"), "{}", ran.told());
}

#[cfg(unix)]
#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let book = Book::sound();
    let script = format!("'{PROGRAM}' proof book | true; '{PROGRAM}' reckon --list | head -1");
    let ran = ran(Command::new("bash").args(["-o", "pipefail", "-c", &script]).current_dir(book.beside())).ended(0);
    assert_eq!(ran.err, "", "{}", ran.told());
}
