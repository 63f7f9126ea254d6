#!/bin/sh
# SPDX-License-Identifier: MIT
# Many sites spread by Slurm: a cluster of this one machine is started in a folder of its own, an array of jobs answers the
# shards, and their answers joined in order are the bytes of one run. As root; where the cluster does not start, it says
# what kept it and NOT RUN. Nothing of it is left behind.
# Usage: slurm.sh ROOT SOILCLOCK [SITES]
set -eu
root=$(cd "$1" && pwd)
program=$(cd "$(dirname "$2")" && pwd)/$(basename "$2")
count=${3:-1000}
in_a_shard=$(((count + 19) / 20)) # some twenty of them
work=$(mktemp -d)
chmod 711 "$work" # who asks for a job must reach the socket
started=
stop() {
  for process in $started; do kill "$process" 2>/dev/null || true; done
  for process in $started; do wait "$process" 2>/dev/null || true; done
  rm -rf "$work"
}
trap stop EXIT
trap 'exit 1' INT TERM

not_run() { # what kept it, a log
  echo "NOT RUN: $1${2:+: $(grep -iE 'error|fatal' "$2" | tail -1)}"
  exit 0
}
comes_up() { # a command that succeeds when it is up
  for _ in $(seq 100); do
    "$@" >/dev/null 2>&1 && return 0
    sleep 0.2
  done
  return 1
}

export PATH="$PATH:/usr/sbin"
[ "$(id -u)" -eq 0 ] || not_run "the daemons need root"
for tool in munged slurmctld slurmd sbatch; do command -v $tool >/dev/null || not_run "$tool is not installed"; done

host=$(hostname -s)
mkdir "$work/state" "$work/spool"
head -c 1024 /dev/urandom >"$work/munge.key"
chmod 600 "$work/munge.key"
# Ports and names of its own: a cluster that this machine belongs to does not notice.
cat >"$work/slurm.conf" <<END
ClusterName=soilclock
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
SlurmctldPort=26817
SlurmdPort=26818
AuthType=auth/munge
AuthInfo=socket=$work/munge.socket
CredType=cred/munge
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool
SlurmctldPidFile=$work/slurmctld.pid
SlurmdPidFile=$work/slurmd.pid
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SchedulerParameters=batch_sched_delay=0,sched_interval=2
MpiDefault=none
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=$host Default=YES MaxTime=INFINITE State=UP
END
export SLURM_CONF="$work/slurm.conf"

munged --foreground --key-file="$work/munge.key" --socket="$work/munge.socket" --pid-file="$work/munge.pid" \
  --log-file="$work/munge.log" --seed-file="$work/munge.noise" --num-threads=2 >"$work/munged.out" 2>&1 &
started="$! $started"
comes_up munge --socket="$work/munge.socket" --no-input || not_run "munged did not start" "$work/munged.out"
slurmctld -D -f "$SLURM_CONF" >"$work/slurmctld.log" 2>&1 &
started="$! $started"
comes_up scontrol ping || not_run "slurmctld did not start" "$work/slurmctld.log"
slurmd -D -f "$SLURM_CONF" -N "$host" >"$work/slurmd.log" 2>&1 &
started="$! $started"
# shellcheck disable=SC2016  # for the shell that is called
comes_up sh -c 'sinfo --noheader --format=%T | grep -qE "^(idle|mixed)$"' || not_run "the node did not come up" "$work/slurmd.log"

export XDG_DATA_HOME="$work/data" # no records of whoever runs this
"$root/tests/scale/make_sites.py" "$root" "$count" "$work"
cd "$work"
"$program" advise --sites - --on 2026-10-15 --format json <sites.jsonl >one-run
split -l "$in_a_shard" -d sites.jsonl shard.
last=$(($(find . -name 'shard.??' | wc -l) - 1))
cat >one_shard <<END
#!/bin/sh
shard=\$(printf 'shard.%02d' "\$SLURM_ARRAY_TASK_ID")
exec "$program" advise --sites - --on 2026-10-15 --format json <"\$shard" >"\$shard.answers"
END
begin=$(date +%s)
timeout 3600 sbatch --wait --array="0-$last" --output="$work/job.%a" --chdir="$work" one_shard ||
  { echo "the array failed"; tail -n 2 job.* slurmctld.log; exit 1; }
echo "$count sites in an array of $((last + 1)) jobs on $(nproc) cores of one machine: $(($(date +%s) - begin)) s"
cat shard.??.answers >merged
cmp one-run merged
[ "$(wc -l <merged)" -eq "$count" ]
echo "the answers joined in order are the bytes of one run"
