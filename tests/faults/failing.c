/* Makes the system under a program fail. Preloaded, it answers chosen calls with an error, or ends
   the program there. Two ways of choosing; compiled by tests/faults/library.py.

   While it runs: calls on files whose name holds COURTLOG_FAULT_ON get the error that stands in the
   file COURTLOG_FAULTS ("pwrite 28"), while that file is there; one whose name ends in "once" goes
   with the first call it struck. "slow 50" makes a sync take 50 ms.

   From the start: COURTLOG_STRIKE "unlink 3 5" gives the third unlink on a path that begins with
   COURTLOG_STRIKE_UNDER the error 5; with the error 0 the program is killed instead of that call.
   Every such call is a line in the file COURTLOG_CALLS. Both write what was struck to the file
   COURTLOG_STRUCK. */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <time.h>
#include <unistd.h>

#define NEXT(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))
#define LONGEST 4096

static int written(const char *to, const char *call, const char *path) {
    char line[LONGEST + 64];
    int fd = NEXT(open)(to, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    if (fd < 0) return 0;
    int size = snprintf(line, sizeof line, "%s %s\n", call, path);
    ssize_t done = NEXT(write)(fd, line, (size_t)size);
    NEXT(close)(fd);
    return done == size;
}

/* The error for this call on this path, or 0; the program may end here. */
static int struck(const char *call, const char *path) {
    static int count = 0;
    const char *under = getenv("COURTLOG_STRIKE_UNDER"), *strike = getenv("COURTLOG_STRIKE");
    const char *calls = getenv("COURTLOG_CALLS"), *mark = getenv("COURTLOG_STRUCK");
    char wanted[32];
    int number = 0, error = 0;
    if (!under || strncmp(path, under, strlen(under))) return 0;
    if (calls) written(calls, call, path);
    if (!strike || sscanf(strike, "%31s %d %d", wanted, &number, &error) != 3) return 0;
    if (strcmp(wanted, call) || __sync_add_and_fetch(&count, 1) != number) return 0;
    if (mark) written(mark, call, path);
    if (!error) kill(getpid(), SIGKILL);
    return error;
}

/* The number beside the call in the file of faults, if this file is to have that fault; else 0. */
static int asked(const char *call, const char *path) {
    const char *faults = getenv("COURTLOG_FAULTS"), *on = getenv("COURTLOG_FAULT_ON");
    const char *mark = getenv("COURTLOG_STRUCK");
    char wanted[32];
    int error = 0;
    FILE *file;
    if (!faults || !on || !strstr(path, on) || !(file = fopen(faults, "r"))) return 0;
    while (fscanf(file, "%31s %d", wanted, &error) == 2)
        if (!strcmp(wanted, call)) {
            size_t length = strlen(faults);
            fclose(file);
            if (mark) written(mark, call, path);
            if (length > 4 && !strcmp(faults + length - 4, "once")) NEXT(unlink)(faults);
            return error;
        }
    fclose(file);
    return 0;
}

static int wrong(const char *call, const char *path) {
    int saved = errno, error = struck(call, path);
    if (!error) error = asked(call, path);
    errno = error ? error : saved;
    return error;
}

static int named(int fd, char *name) {
    char link[64];
    int saved = errno;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, name, LONGEST - 1);
    name[length < 0 ? 0 : length] = 0;
    errno = saved;
    return length > 0;
}

/* Whether a call on an open file fails; errno says how. */
static int fails(const char *call, int fd) {
    char name[LONGEST];
    return (getenv("COURTLOG_STRIKE_UNDER") || getenv("COURTLOG_FAULTS")) && named(fd, name) &&
           wrong(call, name);
}

/* The same of a path, which may be relative to an open folder. */
static int fails_at(const char *call, int folder, const char *path) {
    char whole[2 * LONGEST + 2], start[LONGEST];
    if (!path || !(getenv("COURTLOG_STRIKE_UNDER") || getenv("COURTLOG_FAULTS"))) return 0;
    if (path[0] == '/') return wrong(call, path);
    if (folder == AT_FDCWD ? !getcwd(start, sizeof start) : !named(folder, start)) return 0;
    snprintf(whole, sizeof whole, "%s/%s", start, path);
    return wrong(call, whole);
}

static void drags(int fd) {
    char name[LONGEST];
    if (!getenv("COURTLOG_FAULTS") || !named(fd, name)) return;
    struct timespec wait = {0, asked("slow", name) * 1000000L};
    nanosleep(&wait, NULL);
}

#define MODE                                                                                       \
    mode_t mode = 0;                                                                               \
    if (flags & (O_CREAT | O_TMPFILE)) {                                                           \
        va_list more;                                                                              \
        va_start(more, flags);                                                                     \
        mode = va_arg(more, mode_t);                                                               \
        va_end(more);                                                                              \
    }
static const char *opening(int flags) { return flags & O_CREAT ? "create" : "open"; }

int open(const char *path, int flags, ...) {
    MODE return fails_at(opening(flags), AT_FDCWD, path) ? -1 : NEXT(open)(path, flags, mode);
}
int open64(const char *path, int flags, ...) {
    MODE return fails_at(opening(flags), AT_FDCWD, path) ? -1 : NEXT(open64)(path, flags, mode);
}
int openat(int at, const char *path, int flags, ...) {
    MODE return fails_at(opening(flags), at, path) ? -1 : NEXT(openat)(at, path, flags, mode);
}
int openat64(int at, const char *path, int flags, ...) {
    MODE return fails_at(opening(flags), at, path) ? -1 : NEXT(openat64)(at, path, flags, mode);
}
DIR *opendir(const char *path) {
    return fails_at("opendir", AT_FDCWD, path) ? NULL : NEXT(opendir)(path);
}
DIR *fdopendir(int fd) { return fails("opendir", fd) ? NULL : NEXT(fdopendir)(fd); }

/* A file that was closed with an error is closed all the same (close(2)). */
int close(int fd) {
    int failed = fails("close", fd), error = errno, done = NEXT(close)(fd);
    if (failed) errno = error;
    return failed ? -1 : done;
}
ssize_t read(int fd, void *to, size_t size) {
    return fails("read", fd) ? -1 : NEXT(read)(fd, to, size);
}
ssize_t write(int fd, const void *from, size_t size) {
    return fails("write", fd) ? -1 : NEXT(write)(fd, from, size);
}
ssize_t pwrite(int fd, const void *from, size_t size, off_t at) {
    return fails("pwrite", fd) ? -1 : NEXT(pwrite)(fd, from, size, at);
}
ssize_t pwrite64(int fd, const void *from, size_t size, off64_t at) {
    return fails("pwrite", fd) ? -1 : NEXT(pwrite64)(fd, from, size, at);
}
ssize_t pread(int fd, void *to, size_t size, off_t at) {
    return fails("pread", fd) ? -1 : NEXT(pread)(fd, to, size, at);
}
ssize_t pread64(int fd, void *to, size_t size, off64_t at) {
    return fails("pread", fd) ? -1 : NEXT(pread64)(fd, to, size, at);
}
int fsync(int fd) { drags(fd); return fails("fsync", fd) ? -1 : NEXT(fsync)(fd); }
int fdatasync(int fd) { drags(fd); return fails("fsync", fd) ? -1 : NEXT(fdatasync)(fd); }
int ftruncate(int fd, off_t size) {
    return fails("ftruncate", fd) ? -1 : NEXT(ftruncate)(fd, size);
}
int ftruncate64(int fd, off64_t size) {
    return fails("ftruncate", fd) ? -1 : NEXT(ftruncate64)(fd, size);
}
int flock(int fd, int how) { return fails("flock", fd) ? -1 : NEXT(flock)(fd, how); }

/* Only locks: what else is asked of open files does not fail. */
static int locking(int command) {
    return command == F_SETLK || command == F_SETLKW || command == F_GETLK ||
           command == F_OFD_SETLK || command == F_OFD_SETLKW || command == F_OFD_GETLK;
}
int fcntl(int fd, int command, ...) {
    va_list more;
    va_start(more, command);
    void *with = va_arg(more, void *);
    va_end(more);
    return locking(command) && fails("fcntl", fd) ? -1 : NEXT(fcntl)(fd, command, with);
}
int fcntl64(int fd, int command, ...) {
    va_list more;
    va_start(more, command);
    void *with = va_arg(more, void *);
    va_end(more);
    return locking(command) && fails("fcntl", fd) ? -1 : NEXT(fcntl64)(fd, command, with);
}

int rename(const char *from, const char *to) {
    return fails_at("rename", AT_FDCWD, to) ? -1 : NEXT(rename)(from, to);
}
int renameat(int at, const char *from, int where, const char *to) {
    return fails_at("rename", where, to) ? -1 : NEXT(renameat)(at, from, where, to);
}
int link(const char *from, const char *to) {
    return fails_at("link", AT_FDCWD, to) ? -1 : NEXT(link)(from, to);
}
int linkat(int at, const char *from, int where, const char *to, int flags) {
    return fails_at("link", where, to) ? -1 : NEXT(linkat)(at, from, where, to, flags);
}
int unlink(const char *path) {
    return fails_at("unlink", AT_FDCWD, path) ? -1 : NEXT(unlink)(path);
}
int unlinkat(int at, const char *path, int flags) {
    const char *call = flags & AT_REMOVEDIR ? "rmdir" : "unlink";
    return fails_at(call, at, path) ? -1 : NEXT(unlinkat)(at, path, flags);
}
int rmdir(const char *path) {
    return fails_at("rmdir", AT_FDCWD, path) ? -1 : NEXT(rmdir)(path);
}
int mkdir(const char *path, mode_t mode) {
    return fails_at("mkdir", AT_FDCWD, path) ? -1 : NEXT(mkdir)(path, mode);
}
int chmod(const char *path, mode_t mode) {
    return fails_at("chmod", AT_FDCWD, path) ? -1 : NEXT(chmod)(path, mode);
}
int fchmod(int fd, mode_t mode) { return fails("chmod", fd) ? -1 : NEXT(fchmod)(fd, mode); }

int stat(const char *path, struct stat *to) {
    return fails_at("stat", AT_FDCWD, path) ? -1 : NEXT(stat)(path, to);
}
int stat64(const char *path, struct stat64 *to) {
    return fails_at("stat", AT_FDCWD, path) ? -1 : NEXT(stat64)(path, to);
}
int lstat(const char *path, struct stat *to) {
    return fails_at("stat", AT_FDCWD, path) ? -1 : NEXT(lstat)(path, to);
}
int lstat64(const char *path, struct stat64 *to) {
    return fails_at("stat", AT_FDCWD, path) ? -1 : NEXT(lstat64)(path, to);
}
int fstat(int fd, struct stat *to) { return fails("fstat", fd) ? -1 : NEXT(fstat)(fd, to); }
int fstat64(int fd, struct stat64 *to) { return fails("fstat", fd) ? -1 : NEXT(fstat64)(fd, to); }
