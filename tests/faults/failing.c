/* Makes the disk under a book fail: preloaded, it answers chosen calls on files whose name holds
   COURTLOG_FAULT_ON with the error that stands in the file COURTLOG_FAULTS ("pwrite 28"), while
   that file is there; "slow 50" makes it take 50 ms to sync. Compiled by tests/faults/disks.py. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <time.h>
#include <unistd.h>

/* The number beside the call in the file of faults, if this file is to have that fault; else 0. */
static int asked(const char *call, int fd) {
    const char *faults = getenv("COURTLOG_FAULTS"), *on = getenv("COURTLOG_FAULT_ON");
    char link[64], name[4096], wanted[32];
    int error = 0, saved = errno;
    FILE *file;
    if (!faults || !on) return 0;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, name, sizeof name - 1);
    if (length < 0) { errno = saved; return 0; }
    name[length] = 0;
    if (!strstr(name, on) || !(file = fopen(faults, "r"))) { errno = saved; return 0; }
    while (fscanf(file, "%31s %d", wanted, &error) == 2)
        if (!strcmp(wanted, call)) { fclose(file); errno = saved; return error; }
    fclose(file);
    errno = saved;
    return 0;
}

static int fails(const char *call, int fd) {
    int error = asked(call, fd);
    if (error) errno = error;
    return error;
}

static void drags(int fd) {
    struct timespec wait = {0, asked("slow", fd) * 1000000L};
    nanosleep(&wait, NULL);
}

#define NEXT(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

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
