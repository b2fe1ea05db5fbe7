// Built by page/build.mjs from sources 975d64c23cc53efc: change those, and run `make page`.
"use strict";(()=>{var ks=(()=>{let t=new Uint32Array(256);for(let e=0;e<256;e++){let n=e;for(let o=0;o<8;o++)n=n&1?3988292384^n>>>1:n>>>1;t[e]=n}return t})();function Jt(t){let e=4294967295;
for(let n=0;n<t.length;n++)e=ks[(e^t.charCodeAt(n))&255]^e>>>8;return(e^4294967295)>>>0}async function ke(t){let e=Uint8Array.from(atob(t),o=>o.charCodeAt(0)),n=new Blob(
[e]).stream().pipeThrough(new DecompressionStream("deflate"));return new Uint8Array(await new Response(n).arrayBuffer())}function Ee(t,e){let n=t.length/e,o=new Int32Array(
n);for(let r=0;r<n;r++){let s=0;for(let i=e-1;i>=0;i--)s=s*256+t[i*n+r];o[r]=s&1?-(s+1)/2:s/2}return o}function Es(t,e,n,o,r,s,i){let[c,a,f]=[t[0],t[1]-t[0],t[2]-
2*t[1]+t[0]];for(let l=0;l<o;l++)s[i+3*l]=c*r,c+=a,a+=f,l<o-3&&(f+=e[n+l])}async function Qt(t,e){let{strands:n,columns:o,count:r,first:s,quantum:i}=t,c=Ee(await ke(
e),t.planes),a=new Float64Array(n*o*3),f=0;for(let l=0;l<n;l++){for(let u=0;u<3;u++)Es(s[3*l+u],c,f,r[l],i,a,3*l*o+u),f+=r[l]-3;As(a,l*o,r[l],o)}return{...t,points:a,
station:Os(t),packing:Ss(t)}}function As(t,e,n,o){let r=3*(e+n-1);for(let s=n;s<o;s++)t.copyWithin(3*(e+s),r,r+3)}function Os({columns:t,station:e}){return Float64Array.
from({length:t},(n,o)=>e[0]+o*e[1])}function Ss({columns:t,packing:e}){let n=new Float64Array(t);for(let o=0;o<e.length-1;o++){let[[r,s],[i,c]]=[e[o],e[o+1]];for(let a=r;a<=
i;a++)n[a]=s+(c-s)*(a-r)/Math.max(i-r,1)}return n}async function In(t,e,n){let[o,r]=[await ke(e),await ke(n)],s=Ee(o,t.pointPlanes),i=new Float32Array(s.length);
for(let a=0;a<s.length;a++)s[a]+=a>=3?s[a-3]:0,i[a]=s[a]*t.quantum;let c=Uint32Array.from(Fs(Ee(r,t.facePlanes)));return{points:i,faces:c}}function Fs(t){for(let e=1;e<
t.length;e++)t[e]+=t[e-1];return t}function Ts({crown:t,nose:e,reach:n,groove:o,lip:r,halfWidth:s,centre:i},c,a,f){let l=Rs(t,e,n,c-i[0],a-i[1]),u=Math.abs(f-i[2]),[d,m]=[l-r,u-s],h=Math.hypot(Math.
max(d,0),Math.max(m,0))+Math.min(Math.max(d,m),0);return o>0?Math.max(h,o-Math.hypot(l-o,u)):h}function Rs(t,e,n,o,r){if(n<=0)return Math.hypot(o,r)-t;let s=(t-
e)/n,i=s/Math.sqrt(1-s*s),c=Math.min(Math.max(-o-Math.abs(r)*i,0),n);return Math.hypot(o+c,r)-(t-c*s)}function Is([t,e,n,o,r,s,i,c,a,f],l,u,d){let m=-((l-t)*o+(u-
e)*r+(d-n)*s),h=Math.hypot(l-t+m*o,u-e+m*r,d-n+m*s);return m<0||m>f?Math.max(h,i):h-Math.min(i,c+(i-c)*m/a)}function Ln({seat:t,rods:e},n,o,r){let s=t?Ts(t,n,o,
r):1/0;for(let i of e)s=Math.min(s,Is(i,n,o,r));return s}function Cn(t,e,n,o){if(!t.seat&&t.rods.length===0)return;let r=o.reduce((s,i)=>Math.max(s,i),0);for(let s=0;s<
e.strands;s++)for(let i=0;i<e.count[s];i++){let c=3*(s*e.n+i),[a,f,l]=[e.centres[c],e.centres[c+1],e.centres[c+2]];Ln(t,a,f,l)<r&&Ls(t,e.centres,n,s*e.n+i,o)}}function Ls(t,e,{
across:n,flat:o,free:r,rays:s},i,c){let a=3*i;for(let f=0;f<s;f++){let[l,u]=[r.cos[f],r.sin[f]],[d,m,h]=[0,1,2].map(M=>l*n[a+M]+u*o[a+M]),[y,b,p]=e.subarray(a,a+
3),x=M=>Ln(t,y+M*d,b+M*m,p+M*h),v=c[i*s+f];v>0&&x(v)<0&&(c[i*s+f]=Cs(x,v))}}function Cs(t,e){let[n,o]=[0,e];for(let r=0;r<14;r++){let s=(n+o)/2;[n,o]=t(s)>=0?[s,
o]:[n,s]}return n}var Nn=.6,Ae=8;function Pn(t,e,n,o,r,s,[i,c]){let{strands:a,n:f,count:l,thickness:u,station:d}=t,m=r.cos.length,h=u.map(S=>S*S/4),y=h.reduce((S,T)=>Math.max(S,T),
0),b=u.reduce((S,T)=>Math.max(S,T),0),p=Math.ceil(s.selfReach*b/Us(t)),x={found:new Float64Array(3*4096),number:0},v={...t,...zs(t,h,2*r.widest),weight:h,slack:p,
near:x},[M,O]=[new Float32Array(a*f*m),new Float64Array(m)];for(let S=0;S<a;S++)for(let T=0;T<l[S];T++){if(d[T]<i||d[T]>c)continue;let I=Ns(r.longest,T*m,m),H=s.
beyond*(I+Math.sqrt(I*I+y-h[T]));Bs(v,S,T,H),$s(t,e,S,T,x),_s(x,n,o,3*(S*f+T),r,Nn/I,O);for(let U=0;U<m;U++)M[(S*f+T)*m+U]=Ps(r.longest[T*m+U],O[U],s.rounding)}
return M}function Ns(t,e,n){let o=0;for(let r=e;r<e+n;r++)t[r]>o&&(o=t[r]);return o}function Ps(t,e,n){let o=t*e;return o<Nn?t:t/(1+o**n)**(1/n)}function _s(t,e,n,o,r,s,i){
let{found:c,number:a}=t,{cos:f,sin:l}=r,u=f.length/2,d=e[o],m=e[o+1],h=e[o+2],y=n[o],b=n[o+1],p=n[o+2];i.fill(0);for(let x=0;x<3*a;x+=3){let v=c[x]*d+c[x+1]*m+c[x+
2]*h,M=c[x]*y+c[x+1]*b+c[x+2]*p;if(!(v*v+M*M<s*s))for(let O=0;O<u;O++){let S=f[O]*v+l[O]*M;S>i[O]?i[O]=S:-S>i[O+u]&&(i[O+u]=-S)}}}function $s({n:t,centres:e,count:n},o,r,s,i){
let c=3*(r*t+s);for(let a=s-1;a<=s+1;a+=2){if(a<0||a>=n[r])continue;let f=3*(r*t+a),l=o[c]+o[f],u=o[c+1]+o[f+1],d=o[c+2]+o[f+2],m=e[f]-e[c],h=(l*m+u*(e[f+1]-e[c+
1])+d*(e[f+2]-e[c+2]))/2;_n(i,l/h,u/h,d/h)}}function _n(t,e,n,o){let r=3*t.number;t.found[r]=e,t.found[r+1]=n,t.found[r+2]=o,t.number+=1}function Bs(t,e,n,o){let{
n:r,centres:s,low:i,cell:c,shape:a,starts:f,near:l}=t,u=3*(e*r+n),d=Math.trunc((s[u]-i[0])/c),m=Math.trunc((s[u+1]-i[1])/c),h=Math.trunc((s[u+2]-i[2])/c),y=Math.
max(h-1,0),b=Math.min(h+2,a[2]);l.number=0;for(let p=Math.max(d-1,0);p<Math.min(d+2,a[0]);p++)for(let x=Math.max(m-1,0);x<Math.min(m+2,a[1]);x++){let v=(p*a[1]+
x)*a[2];Ds(t,f[v+y],f[v+b],e,n,o)}}function Ds(t,e,n,o,r,s){let{n:i,centres:c,weight:a,slack:f,near:l,segments:u,order:d,count:m}=t,h=c[3*(o*i+r)],y=c[3*(o*i+r)+
1],b=c[3*(o*i+r)+2];for(let p=e;p<n;p++){let x=Ae*p,v=u[x]-h,M=u[x+1]-y,O=u[x+2]-b,S=u[x+6],T=s+Math.sqrt(S);if(v*v+M*M+O*O>T*T)continue;let I=Math.floor(d[p]/i),
H=d[p]-I*i;if(I===o&&Math.abs(H-r)<f)continue;let U=a[r]-u[x+7],ht=u[x+3],Kt=u[x+4],qt=u[x+5],Nt=-(v*ht+M*Kt+O*qt)/Math.max(S,1e-12);Zt(v,M,O,U,s,l),Zt(v+ht/2,M+
Kt/2,O+qt/2,U,s,l),Nt>=0&&Nt<=1&&Zt(v+Nt*ht,M+Nt*Kt,O+Nt*qt,U,s,l),(H+2>=m[I]||I===o&&Math.abs(H+1-r)<f)&&Zt(v+ht,M+Kt,O+qt,U,s,l)}}function Zt(t,e,n,o,r,s){let i=t*
t+e*e+n*n;if(i>=r*r||s.number>=4090)return;let c=2/Math.max(i+o,.1*i,1e-9);_n(s,t*c,e*c,n*c)}function Us({strands:t,n:e,centres:n,count:o}){let r=new Float64Array(
o.reduce((i,c)=>i+c-1,0)),s=0;for(let i=0;i<t;i++)for(let c=i*e;c<i*e+o[i]-1;c++)r[s++]=wt(n,3*c,n,3*c+3);return te(r)}function zs(t,e,n){let{middles:o,names:r}=Ws(
t),[s,i]=Gs(o),c=[0,1,2].reduce((m,h)=>m*(i[h]-s[h]+n),1),a=Math.max(n*1.15,Math.cbrt(c/4e6)),f=[0,1,2].map(m=>Math.trunc((i[m]-s[m])/a)+1),l=new Int32Array(r.length);
for(let m=0;m<r.length;m++){let h=Math.trunc((o[3*m]-s[0])/a),y=Math.trunc((o[3*m+1]-s[1])/a);l[m]=(h*f[1]+y)*f[2]+Math.trunc((o[3*m+2]-s[2])/a)}let{starts:u,order:d}=js(
l,r,f[0]*f[1]*f[2]);return{low:s,cell:a,shape:f,starts:u,order:d,segments:Hs(t,e,d)}}function Hs({n:t,centres:e},n,o){let r=new Float64Array(Ae*o.length);for(let s=0;s<
o.length;s++){let[i,c]=[3*o[s],Ae*s];for(let a=0;a<3;a++)r[c+a]=e[i+a],r[c+3+a]=e[i+3+a]-e[i+a],r[c+6]+=r[c+3+a]**2;r[c+7]=n[o[s]%t]}return r}function Ws({strands:t,
n:e,centres:n,count:o}){let r=o.reduce((a,f)=>a+f-1,0),[s,i]=[new Float64Array(3*r),new Int32Array(r)],c=0;for(let a=0;a<t;a++)for(let f=0;f<o[a]-1;f++,c++){let l=3*
(a*e+f);for(let u=0;u<3;u++)s[3*c+u]=(n[l+u]+n[l+3+u])/2;i[c]=a*e+f}return{middles:s,names:i}}function Gs(t){let e=[1/0,1/0,1/0],n=[-1/0,-1/0,-1/0];for(let o=0,
r=0;o<t.length;o++,r=r<2?r+1:0)t[o]<e[r]&&(e[r]=t[o]),t[o]>n[r]&&(n[r]=t[o]);return[e,n]}function js(t,e,n){let o=new Int32Array(n+1);for(let i=0;i<t.length;i++)
o[t[i]+1]+=1;for(let i=0;i<n;i++)o[i+1]+=o[i];let[r,s]=[o.slice(0,n),new Int32Array(e.length)];for(let i=0;i<e.length;i++)s[r[t[i]]++]=e[i];return{starts:o,order:s}}var $n=1.5;function Pt(t,e,n,o,r){let s=n||Ys(t,o),i=Xs(t,s),c=Js(i),{axis:a,radius:f}=zn(i),l=Zs(i,c,a,o.turn*t.thickness),u=t.plain||te(f.slice(0,Hn(f.length))),
d=Qs(f,u,i.station,t.diameter,o.spread),m=ni(i,d,e,o),h=ei(l,c),y=Pn(i,c,h,l,m,o,r||[-1/0,1/0]),b=oi(y,i,e);for(let p=0;p<b.length;p++)b[p]*=o.inset;return Cn(t,
i,{across:h,flat:l,free:m,rays:e},b),{...i,tangents:c,axis:a,rays:e,rings:ri(i,h,l,m,b,e)}}function Dn(t,[e,n],o){let{columns:r,station:s,count:i,points:c,packing:a,
diameter:f}=t,l=Un(t),u=b=>Math.min(Math.max(Math.round((b-s[0])/l),0),r-1),d=u(e-$n*f),m=Math.floor((u(n+$n*f)-d)/o)+1,h=new Float64Array(3*t.strands*m);for(let b=0;b<
t.strands;b++)for(let p=0;p<m;p++){let x=3*(b*r+d+p*o);h.set(c.subarray(x,x+3),3*(b*m+p))}let y=b=>Float64Array.from({length:m},(p,x)=>b[d+x*o]);return{...t,columns:m,
points:h,station:y(s),packing:y(a),plain:Vs(t),count:i.map(b=>Math.min(Math.max(Math.floor((b-1-d)/o)+1,1),m))}}function Vs({strands:t,columns:e,points:n}){let o=Hn(
e),r=new Float64Array(3*t*o);for(let i=0;i<t;i++)r.set(n.subarray(3*i*e,3*(i*e+o)),3*i*o);let s=new Int32Array(t).fill(o);return te(zn({strands:t,n:o,centres:r,
count:s}).radius)}function Ys(t,e){return Math.max(1,Math.ceil(t.station.length>1?Un(t)/(e.spacing*t.thickness):1))}function Un({station:t}){return t[1]-t[0]}function Xs(t,e){
let{columns:n,count:o,points:r,station:s,packing:i,thickness:c}=t,a=(n-1)*e+1,f=new Float64Array(t.strands*a*3);for(let m=0;m<t.strands;m++)Ks(r,m*n,o[m],e,f,m*
a,a);let[l,u]=[new Float64Array(a),new Float64Array(a)];for(let m=0;m<a;m++){let[h,y]=[Math.min(Math.floor(m/e),n-2),m/e];l[m]=s[h]+(s[h+1]-s[h])*(y-h),u[m]=c*(i[h]+
(i[h+1]-i[h])*(y-h))}let d=Int32Array.from(o,m=>(m-1)*e+1);return{strands:t.strands,n:a,centres:f,station:l,thickness:u,count:d,refine:e}}function Ks(t,e,n,o,r,s,i){
let c=(a,f)=>a<0?2*t[3*e+f]-t[3*(e+1)+f]:a<n?t[3*(e+a)+f]:2*t[3*(e+n-1)+f]-t[3*(e+n-2)+f];for(let a=0;a<3;a++){for(let l=0;l<n-1;l++){let[u,d,m,h]=[c(l-1,a),c(l,
a),c(l+1,a),c(l+2,a)];for(let y=0;y<o;y++)r[3*(s+l*o+y)+a]=y?qs(u,d,m,h,y/o):d}let f=t[3*(e+n-1)+a];for(let l=(n-1)*o;l<i;l++)r[3*(s+l)+a]=f}}function qs(t,e,n,o,r){
let[s,i]=[r*r,r*r*r];return((-r+2*s-i)*t+(2-5*s+3*i)*e+(r+4*s-3*i)*n+(i-s)*o)/2}function Js({strands:t,n:e,centres:n,count:o}){let r=new Float64Array(t*e*3);for(let s=0;s<
t;s++)for(let i=0;i<o[s];i++){let c=3*(s*e+Math.max(i-1,0)),a=3*(s*e+Math.min(i+1,o[s]-1)),f=Math.max(wt(n,c,n,a),1e-12);for(let l=0;l<3;l++)r[3*(s*e+i)+l]=(n[a+
l]-n[c+l])/f}return r}function zn({strands:t,n:e,centres:n,count:o}){let[r,s,i]=[new Float64Array(3*e),new Float64Array(e),new Float64Array(e)];for(let c=0;c<t;c++)
for(let a=0;a<o[c];a++){i[a]+=1;for(let f=0;f<3;f++)r[3*a+f]+=n[3*(c*e+a)+f]}for(let c=0;c<3*e;c++)r[c]/=Math.max(i[Math.floor(c/3)],1);for(let c=0;c<t;c++)for(let a=0;a<
o[c];a++)s[a]+=wt(n,3*(c*e+a),r,3*a);for(let c=0;c<e;c++)s[c]/=Math.max(i[c],1);return{axis:r,radius:s}}function wt(t,e,n,o){return Math.sqrt((t[e]-n[o])**2+(t[e+
1]-n[o+1])**2+(t[e+2]-n[o+2])**2)}var Hn=t=>Math.max(3,Math.floor(t/50));function Qs(t,e,n,o,r){let s=t.length,i=(n[s-1]-n[0])/Math.max(s-1,1),c=Math.min(Math.max(
Math.trunc(o/2/i),1),Math.floor((s-1)/2)),a=new Float64Array(s+2*c+1);for(let f=0;f<s+2*c;f++){let l=t[Math.min(Math.max(f-c,0),s-1)]/e;a[f+1]=a[f]+Math.min(Math.
max(l,1),r)}return Float64Array.from(t,(f,l)=>(a[l+2*c+1]-a[l])/(2*c+1))}function te(t){let e=Float64Array.from(t).sort(),n=e.length>>1;return e.length%2?e[n]:(e[n-
1]+e[n])/2}function Zs(t,e,n,o){let r=new Float64Array(t.centres.length);for(let s=0;s<t.strands;s++){Bn(t,e,n,o,s,1,r),Bn(t,e,n,o,s,-1,r);for(let i=0;i<t.count[s];i++)
ti(r,e,3*(s*t.n+i))}return r}function Bn({n:t,centres:e,count:n},o,r,s,i,c,a){let f=n[i]-1,l=new Float64Array(3),u=new Float64Array(3);for(let d=0;d<=f;d++){let m=c===
1?d:f-d,h=3*(i*t+m),y=3*(i*t+Math.max(Math.min(m-c,f),0));for(let x=0;x<3;x++)u[x]=e[h+x]-r[3*m+x];Oe(u,o,h),Oe(l,o,h);let b=Math.min(wt(e,h,e,y)/s,1),p=(1-b)/Math.
max(Math.sqrt(kt(l,0,l,0)),1e-9);for(let x=0;x<3;x++)l[x]=l[x]*p+u[x]*b/s,a[h+x]+=l[x]}}function Oe(t,e,n){let o=kt(t,0,e,n);for(let r=0;r<3;r++)t[r]-=o*e[n+r]}
function kt(t,e,n,o){return t[e]*n[o]+t[e+1]*n[o+1]+t[e+2]*n[o+2]}function ti(t,e,n){let o=t.subarray(n,n+3);if(Oe(o,e,n),kt(o,0,o,0)<1e-18){let[s,i,c]=e.subarray(
n,n+3);o.set(Math.abs(c)<.9?[-i,s,0]:[0,-c,i])}let r=Math.sqrt(kt(o,0,o,0));for(let s=0;s<3;s++)o[s]/=r}function ei(t,e){let n=new Float64Array(t.length);for(let o=0;o<
t.length;o+=3)n[o]=t[o+1]*e[o+2]-t[o+2]*e[o+1],n[o+1]=t[o+2]*e[o]-t[o]*e[o+2],n[o+2]=t[o]*e[o+1]-t[o+1]*e[o];return n}function ni(t,e,n,o){let[r,s]=[new Float64Array(
n),new Float64Array(n)];for(let a=0;a<n;a++){let f=2*Math.PI*a/n,l=Math.atan2(o.halfHeight*Math.sin(f),o.halfWidth*Math.cos(f));[r[a],s[a]]=[Math.cos(l),Math.sin(
l)]}let i=t.thickness.map((a,f)=>o.halfWidth*a*e[f]),c=new Float64Array(t.n*n);for(let a=0;a<t.n;a++){let f=o.halfHeight*t.thickness[a];for(let l=0;l<n;l++){let u=(Math.
abs(r[l])/i[a])**o.exponent+(Math.abs(s[l])/f)**o.exponent;c[a*n+l]=(1/u)**(1/o.exponent)}}return{cos:r,sin:s,longest:c,widest:i.reduce((a,f)=>Math.max(a,f),0)}}
function oi(t,{strands:e,n,count:o},r){let s=t.slice();for(let i=0;i<e;i++)for(let c=1;c<o[i]-1;c++){let a=(i*n+c)*r;for(let f=a;f<a+r;f++)s[f]=Math.min(t[f],(t[f-
r]+2*t[f]+t[f+r])/4)}return s}function ri({strands:t,n:e,centres:n,count:o},r,s,{cos:i,sin:c},a,f){let l=new Float32Array(t*e*f*3);for(let u=0;u<t;u++)for(let d=0;d<
o[u];d++){let m=3*(u*e+d);for(let h=0;h<f;h++){let y=(u*e+d)*f+h,[b,p]=[a[y]*i[h],a[y]*c[h]];for(let x=0;x<3;x++)l[3*y+x]=n[m+x]+b*r[m+x]+p*s[m+x]}}return l}var N=20;function Fe(t,e){let{n,rays:o,count:r,station:s}=e,i=t.strands*(n*o+2*(o+1)),c=si(i);for(let a=0;a<t.strands;a++)ii(c,e,a);for(let a=0;a<t.strands;a++)
Wn(c,e,a,0,-1);for(let a=0;a<t.strands;a++)Wn(c,e,a,r[a]-1,1);return{vertices:c.buffer,strands:t.strands,n,rays:o,refine:e.refine,count:Int32Array.from(r),station:Float64Array.
from(s),axis:Float32Array.from(e.axis),radius:ci(e)}}function si(t){let e=new ArrayBuffer(t*N);return{buffer:e,floats:new Float32Array(e),bytes:new Int8Array(e),
at:0}}function Se(t,e,n,o,r,s,i,c,a){let f=t.at++,{floats:l,bytes:u}=t;l[5*f]=e,l[5*f+1]=n,l[5*f+2]=o,u[N*f+12]=Math.round(127*r),u[N*f+13]=Math.round(127*s),u[N*
f+14]=Math.round(127*i),u[N*f+15]=c,l[5*f+4]=a}function ii(t,{n:e,rays:n,rings:o,count:r,station:s},i){let c=r[i]-1;for(let a=0;a<e;a++){let f=3*n*(i*e+Math.min(
a,c)),l=3*n*(i*e+Math.max(Math.min(a,c)-1,0)),u=3*n*(i*e+Math.min(a+1,c));for(let d=0;d<n;d++){let m=f+3*d,h=f+3*(d+1<n?d+1:0),y=f+3*(d>0?d-1:n-1),b=o[h]-o[y],p=o[h+
1]-o[y+1],x=o[h+2]-o[y+2],v=o[u+3*d]-o[l+3*d],M=o[u+3*d+1]-o[l+3*d+1],O=o[u+3*d+2]-o[l+3*d+2],S=p*O-x*M,T=x*v-b*O,I=b*M-p*v,H=Math.max(Math.sqrt(S*S+T*T+I*I),1e-12),
U=s[Math.min(a,c)];Se(t,o[m],o[m+1],o[m+2],S/H,T/H,I/H,i,U)}}}function Wn(t,{n:e,rays:n,rings:o,centres:r,tangents:s,station:i},c,a,f){let l=3*(c*e+a),[u,d,m]=[
f*s[l],f*s[l+1],f*s[l+2]];for(let h=0;h<n;h++){let y=3*((c*e+a)*n+h);Se(t,o[y],o[y+1],o[y+2],u,d,m,c,i[a])}Se(t,r[l],r[l+1],r[l+2],u,d,m,c,i[a])}function ci({strands:t,
n:e,rays:n,rings:o,count:r,axis:s}){let i=new Float32Array(e);for(let c=0;c<t;c++)for(let a=0;a<r[c];a++)for(let f=0;f<n;f++)i[a]=Math.max(i[a],wt(o,3*((c*e+a)*
n+f),s,3*a));return i}function Gn(t,e,n,o){let r=Math.floor(e/n),s=new Uint16Array(Math.floor((t-1)/o)*r*6),i=0;for(let c=0;c+o<t;c+=o)for(let a=0;a<r;a++){let[
f,l]=[c*e+a*n,c*e+(a+1)%r*n],u=o*e;s.set([f,l,l+u,f,l+u,f+u],i),i+=6}return s}function jn(t,e,n){let o=[];for(let r=0;r<t;r++){let s=r*(e+1);for(let i=0;i<e;i++){
let[c,a]=[s+i,s+(i+1)%e];o.push(...n>0?[c,a]:[a,c],s+e)}}return Uint16Array.from(o)}function Vn({points:t,faces:e},n){let o=fi(t,e),{starts:r,order:s}=ai(t.length/
3,e),i=Math.cos(n),[c,a]=[new Float32Array(3*e.length),new Float32Array(3*e.length)];for(let f=0;f<e.length;f++){let[l,u,d]=[f-f%3,e[f],3*f],m=0;for(let h=r[u];h<
r[u+1];h++){let y=s[h]-s[h]%3;if(!(kt(o,l,o,y)<=i)){m+=1;for(let b=0;b<3;b++)c[d+b]+=o[y+b]}}for(let h=0;h<3;h++)c[d+h]/=m,a[d+h]=t[3*u+h]}return{points:a,normals:c}}
function ai(t,e){let n=new Int32Array(t+1);for(let s of e)n[s+1]+=1;for(let s=0;s<t;s++)n[s+1]+=n[s];let[o,r]=[n.slice(),new Int32Array(e.length)];for(let s=0;s<
e.length;s++)r[o[e[s]]++]=s;return{starts:n,order:r}}function fi(t,e){let n=new Float32Array(e.length);for(let o=0;o<e.length;o+=3){let[r,s,i]=[3*e[o],3*e[o+1],
3*e[o+2]],[c,a,f]=[t[s]-t[r],t[s+1]-t[r+1],t[s+2]-t[r+2]],[l,u,d]=[t[i]-t[r],t[i+1]-t[r+1],t[i+2]-t[r+2]],[m,h,y]=[a*d-f*u,f*l-c*d,c*u-a*l],b=Math.max(Math.sqrt(
m*m+h*h+y*y),1e-12);n[o]=m/b,n[o+1]=h/b,n[o+2]=y/b}return n}var Te={rays:8,refine:1,stride:2},li={rays:12,refine:1},ui={rays:24,refine:0};async function Re({record:t,fine:e,law:n,only:o}){let r=await Qt(t,t.text);if(o){let c=Dn(
r,o,Te.stride);return Fe(c,Pt(c,Te.rays,Te.refine,n,o))}let{rays:s,refine:i}=e?ui:li;return Fe(r,Pt(r,s,i,n))}function Yn(t){t.onmessage=async({data:e})=>{try{let n=await Re(
e),o=Object.values(n).map(r=>r.buffer||r);t.postMessage({tubes:n},o.filter(r=>r instanceof ArrayBuffer))}catch(n){t.postMessage({problem:String(n)})}}}var A=(t,e)=>[t[0]+e[0],t[1]+e[1],t[2]+e[2]],P=(t,e)=>[t[0]-e[0],t[1]-e[1],t[2]-e[2]],k=(t,e)=>[t[0]*e,t[1]*e,t[2]*e],E=(t,e)=>t[0]*e[0]+t[1]*e[1]+t[2]*e[2],z=(t,e)=>[
t[1]*e[2]-t[2]*e[1],t[2]*e[0]-t[0]*e[2],t[0]*e[1]-t[1]*e[0]],st=t=>Math.hypot(t[0],t[1],t[2]),K=t=>k(t,1/Math.max(st(t),1e-12)),_=(t,e,n)=>Math.min(Math.max(t,e),
n);function _t(t,e,n){let[o,r]=[Math.cos(n),Math.sin(n)];return A(A(k(t,o),k(z(e,t),r)),k(e,E(e,t)*(1-o)))}var $t=(t,e)=>_t(t,[0,0,1],e);var di=400,mi=.07;function it(t,e){let n=K(t),o=K(z(e,n));return{toward:n,right:o,up:z(n,o)}}function Ie(t,e,n,o,r){let s=[e.right,e.up,e.toward].map(l=>hi(t,l)),
i=[e.right,e.up,e.toward].reduce((l,u,d)=>A(l,k(u,(s[d][0]+s[d][1])/2)),[0,0,0]),c=1-2*mi,a=Math.max(s[0][1]-s[0][0],r),f=Math.min(n*c/a,o*c/Math.max(s[1][1]-s[1][0],
1e-6));return $({...e,centre:i,scale:f},n,o)}function hi(t,e){return t.reduce(([n,o],r)=>{let s=E(r,e);return[Math.min(n,s),Math.max(o,s)]},[1/0,-1/0])}function $(t,e,n){
return{...t,width:e,height:n,halfWidth:e/2/t.scale,halfHeight:n/2/t.scale}}function Le(t,e,n){let o=Math.min(t.width,t.height),[r,s]=[-Math.PI*e/o,-Math.PI*n/o],
i=f=>_t(_t(f,t.up,r),t.right,s),c=K(i(t.toward)),a=K(P(i(t.right),k(c,E(i(t.right),c))));return{...t,toward:c,right:a,up:z(c,a)}}function wi(t,e,[n,o]=[0,0]){let r=_t(
t.right,t.toward,e),s=z(t.toward,r),i=A(t.centre,A(k(t.right,n/t.scale),k(t.up,-o/t.scale))),c=A(i,A(k(r,-n/t.scale),k(s,o/t.scale)));return{...t,centre:c,right:r,
up:s}}function ee(t,e,n){let o=A(k(t.right,-e/t.scale),k(t.up,n/t.scale));return{...t,centre:A(t.centre,o)}}function Bt(t,e,[n,o]){let r=_(t.scale*e,.02,di),s=1/
t.scale-1/r,i=A(t.centre,A(k(t.right,n*s),k(t.up,-o*s)));return $({...t,centre:i,scale:r},t.width,t.height)}function Xn(t,{factor:e,turn:n,shift:[o,r]},s){return wi(
ee(Bt(t,e,s),o,r),n,[s[0]+o,s[1]+r])}function Y(t,e){let n=P(e,t.centre),o=t.width/2+E(n,t.right)*t.scale,r=t.height/2-E(n,t.up)*t.scale;return[o,r,E(n,t.toward)]}
function ne(t,e,n){let o=k(t.right,(e-t.width/2)/t.scale),r=k(t.up,(t.height/2-n)/t.scale);return{from:A(t.centre,A(o,r)),along:k(t.toward,-1)}}var Kn={above:[[
0,0,1],[0,1,0]],below:[[0,0,-1],[0,1,0]],left:[[0,1,1e-4],[0,0,1]],right:[[0,-1,1e-4],[0,0,1]],captive:[[-1,0,1e-4],[0,0,1]],eye:[[1,0,1e-4],[0,0,1]],corner:[[.5,
-.8,.7],[0,0,1]]};function Ce(t,e,n){let o=t.createProgram();return qn(t,o,t.VERTEX_SHADER,e),qn(t,o,t.FRAGMENT_SHADER,n),t.linkProgram(o),{program:o,at:new Map}}function qn(t,e,n,o){
let r=t.createShader(n);r&&(t.shaderSource(r,o),t.compileShader(r),t.attachShader(e,r))}function Ne(t,e){if(!t.getProgramParameter(e.program,t.LINK_STATUS)){let n=(t.
getAttachedShaders(e.program)||[]).map(o=>t.getShaderInfoLog(o));throw new Error(`the graphics card refuses the drawing program: ${t.getProgramInfoLog(e.program)}\
 ${n}`)}return e}function B(t,e,n){for(let[o,r]of Object.entries(n)){e.at.has(o)||e.at.set(o,t.getUniformLocation(e.program,o));let s=e.at.get(o);s&&r!==void 0&&
gi(t,s,r)}}function gi(t,e,n){typeof n=="number"?t.uniform1f(e,n):typeof n=="boolean"?t.uniform1i(e,n?1:0):"whole"in n?t.uniform1i(e,n.whole):"bits"in n?t.uniform1uiv(
e,n.bits):"list"in n?Jn(t,e,n.size,n.list):n.length===16?t.uniformMatrix4fv(e,!1,n):n.length===9?t.uniformMatrix3fv(e,!1,n):Jn(t,e,n.length,n)}function Jn(t,e,n,o){
n===1?t.uniform1fv(e,o):n===2?t.uniform2fv(e,o):n===3?t.uniform3fv(e,o):t.uniform4fv(e,o)}var q=t=>({whole:t}),gt=(...t)=>({bits:Uint32Array.from(t)}),nt=(t,e)=>({
size:t,list:Float32Array.from(e.flat())});function Dt(t,e,n){let o=t.createBuffer();return t.bindBuffer(e,o),t.bufferData(e,n,t.STATIC_DRAW),o}function Qn(t,e,n,o,r,s){
let i=t.createTexture();t.bindTexture(t.TEXTURE_2D,i),t.texImage2D(t.TEXTURE_2D,0,e,r,s,0,n,o,null);for(let[c,a]of[[t.TEXTURE_MIN_FILTER,t.NEAREST],[t.TEXTURE_MAG_FILTER,
t.NEAREST],[t.TEXTURE_WRAP_S,t.CLAMP_TO_EDGE],[t.TEXTURE_WRAP_T,t.CLAMP_TO_EDGE]])t.texParameteri(t.TEXTURE_2D,c,a);return i}function Zn(t,e,n,o){let r=t.createFramebuffer(),
s=Qn(t,t.RGBA8,t.RGBA,t.UNSIGNED_BYTE,e,n);t.bindFramebuffer(t.FRAMEBUFFER,r),t.framebufferTexture2D(t.FRAMEBUFFER,t.COLOR_ATTACHMENT0,t.TEXTURE_2D,s,0);let i=o&&
Qn(t,t.DEPTH_COMPONENT24,t.DEPTH_COMPONENT,t.UNSIGNED_INT,e,n);return o&&t.framebufferTexture2D(t.FRAMEBUFFER,t.DEPTH_ATTACHMENT,t.TEXTURE_2D,i,0),{frame:r,colour:s,
depth:i,width:e,height:n}}function to(t,e){t.deleteFramebuffer(e.frame),t.deleteTexture(e.colour),e.depth&&t.deleteTexture(e.depth)}var Pe=1024,eo=32;function Et(t,e){return{...e,buffer:Dt(t,t.ARRAY_BUFFER,e.vertices),array:t.createVertexArray()}}function ct(t,e){t.deleteBuffer(e.buffer),t.deleteVertexArray(
e.array)}function ro(t,e){let n=t.n-1,o=t.station[1]-t.station[0],r=i=>_(Math.round((i-t.station[0])/o),0,n);return e.map(([i,c])=>[r(i),r(c)]).filter(([i,c])=>c>
i)}function xi(t,e,n){let o=[];for(let[r,s]of n)for(let i=r;i<s;){let c=Math.min(i-i%eo+eo,s),a=o[o.length-1];bi(t,e,i,c)&&(a&&a[1]===i?a[1]=c:o.push([i,c])),i=
c}return o}function bi({axis:t,radius:e},n,o,r){for(let s=o;s<=r;s+=4){let i=P([t[3*s],t[3*s+1],t[3*s+2]],n.centre),c=e[s]*2.5,[a,f]=[Math.abs(E(i,n.right)),Math.
abs(E(i,n.up))];if(a<n.halfWidth+c&&f<n.halfHeight+c)return!0}return!1}function so(t,e,n){return t.rays<24?n&&e<6?2:1:n?e<6?4:e<60?2:1:e<10?2:1}function io(t,e,{
runs:n,startEnd:o,farEnd:r},s,i){let{gl:c}=t;c.bindVertexArray(e.array),c.bindBuffer(c.ARRAY_BUFFER,e.buffer);for(let f of[0,1,2,3])c.enableVertexAttribArray(f);
for(let[f,l]of xi(e,s,n))for(let u=0;u<e.strands;u++)yi(t,e,u,f,Math.min(l,e.count[u]-1),i);let a=e.strands*e.n*e.rays;o&&oo(t,e,a,-1),r&&oo(t,e,a+e.strands*(e.
rays+1),1)}function yi(t,e,n,o,r,s){for(let i=o;i<r;i+=Pe){let c=Math.min(i+Pe,r),a=c-(c-i)%s;no(t,e,n,i,a,s,s),no(t,e,n,a,c,s,1)}}function no(t,e,n,o,r,s,i){if(r<=
o)return;let{gl:c}=t;co(c,(n*e.n+o)*e.rays),c.bindBuffer(c.ELEMENT_ARRAY_BUFFER,pi(t,e.rays,s,i)),c.drawElements(c.TRIANGLES,(r-o)/i*Math.floor(e.rays/s)*6,c.UNSIGNED_SHORT,
0)}function oo(t,e,n,o){let{gl:r}=t,s=`caps ${e.strands} ${e.rays} ${o}`,i=()=>jn(e.strands,e.rays,o);co(r,n),r.bindBuffer(r.ELEMENT_ARRAY_BUFFER,ao(t,s,i)),r.drawElements(
r.TRIANGLES,e.strands*e.rays*3,r.UNSIGNED_SHORT,0)}function co(t,e){let n=e*N;t.vertexAttribPointer(0,3,t.FLOAT,!1,N,n),t.vertexAttribPointer(1,3,t.BYTE,!0,N,n+
12),t.vertexAttribIPointer(2,1,t.UNSIGNED_BYTE,N,n+15),t.vertexAttribPointer(3,1,t.FLOAT,!1,N,n+16)}function pi(t,e,n,o){return ao(t,`${e} ${n} ${o}`,()=>Gn(Pe+
1,e,n,o))}function ao(t,e,n){let o=t.patterns.get(e)||Dt(t.gl,t.gl.ELEMENT_ARRAY_BUFFER,n());return t.patterns.set(e,o),o}function g(t){let e=document.getElementById(t);if(!e)throw new Error(`the page has no ${t}`);return e}var R=t=>g(t),At=({target:t})=>t.value,oe=()=>document.activeElement||
document.body;function w(t,e={},...n){let o=document.createElement(t);for(let[r,s]of Object.entries(e))r==="text"?o.textContent=s:r.startsWith("on")?o.addEventListener(
r.slice(2),s):s===!0?o.setAttribute(r,""):s!==!1&&s!==null&&s!==void 0&&o.setAttribute(r,s);for(let r of n)r!==null&&o.append(r);return o}var at=t=>t instanceof
Error?t.message:String(t),vi="http://www.w3.org/2000/svg";function W(t,e={}){let n=document.createElementNS(vi,t);for(let[o,r]of Object.entries(e))n.setAttribute(
o,String(r));return n}function J(t,e){return w(t,{},...e.map(n=>w("li",{text:n})))}function fo(t,e,n){let o=w("select",t,...e.map(([r,s])=>w("option",{value:r,text:s})));
return n!==void 0&&(o.value=n),o}function lo(t,e){let n=e.id||`c-${Math.random().toString(36).slice(2,9)}`;return e.id=n,w("div",{class:"row"},w("label",{for:n,
text:t}),e)}var re=([t,e,n])=>`rgb(${t} ${e} ${n})`,xt=t=>t.map(e=>e/255);var Mi=6e7,ki=48e6;function uo(t,e,n){return{painter:null,maker:Ei(),changed:e,failed:n,data:t,kept:new Map,bodies:new Map,queue:[],making:null,refused:new Set,
unpacking:new Set,former:new Map}}function Ei(){try{let t=new Blob([g("script").textContent],{type:"text/javascript"}),e=new Worker(URL.createObjectURL(t));return{
kind:"worker",make:n=>Ai(e,n)}}catch(t){return{kind:"page",reason:String(t),make:Re}}}function Ai(t,e){return new Promise((n,o)=>{t.onmessage=({data:r})=>r.problem?
o(new Error(r.problem)):n(r.tubes),t.onerror=r=>o(new Error(r.message||"the worker stopped")),t.postMessage(e)})}function Ut({painter:t}){if(!t)throw new Error(
"there is no graphics card");return t.gl}function mo(t,e,n){if(e===t.data)return;let o=Ut(t);for(let[r,{rope:s}]of t.kept){let[i,c]=r.split(" ");c!=="part"&&ho(
t.data,e,i)||(t.kept.delete(r),n.includes(i)&&e.states[i]&&!t.former.has(i)?t.former.set(i,s):ct(o,s))}t.bodies.clear(),t.refused.clear(),t.unpacking.clear(),t.
queue=[],t.data=e}function ho(t,e,n){let[o,r]=[t,e].map(({states:s,law:i})=>JSON.stringify([s[n],i]));return!!e.states[n]&&o===r}var _e=(t,e)=>e.data===t.data||
ho(e.data,t.data,e.kind),wo=(t,e)=>t.former.get(e)||null,se=(t,e)=>`${t} ${e}`,Oi=(t,e)=>e?"part":t?"fine":"coarse";function C(t,e,n){let[o,r,s]=["fine","coarse",
"part"].map(c=>t.kept.get(se(e,c))),i=n&&o||r||o||s;return i?(i.used=performance.now(),i.rope):null}function ot(t,e,n,o,r){let s=se(e,Oi(n,r));if(!t.data.states[e]||
t.kept.has(s)||t.refused.has(s)||t.making&&t.making.key===s&&_e(t,t.making))return;t.queue=t.queue.filter(c=>c.key!==s);let i={key:s,kind:e,fine:n,only:r,data:t.
data};o?t.queue.unshift(i):t.queue.push(i),go(t)}async function go(t){if(t.making)return;let e=t.queue.shift();if(e){t.making=e;try{let{law:n,states:o}=e.data,{
kind:r,fine:s,only:i}=e,c=await t.maker.make({record:o[r],fine:s,law:n,only:i});t.making=null,_e(t,e)&&Fi(t,e,c)}catch(n){t.making=null,_e(t,e)&&Si(t,e,n)}go(t)}}
function Si(t,{key:e,kind:n},o){t.refused.add(e),t.changed(n),t.failed(`This step can't be drawn: ${at(o)}`)}function Fi(t,{key:e,kind:n,fine:o},r){let s=Et(Ut(
t),r);t.kept.set(e,{rope:s,fine:o,bytes:r.vertices.byteLength,used:performance.now()});let i=t.former.get(n);i&&ct(Ut(t),i),t.former.delete(n),Ti(t,o,e),t.changed(
n)}function Ti(t,e,n){let o=[...t.kept].filter(([,s])=>s.fine===e).sort((s,i)=>s[1].used-i[1].used),r=o.reduce((s,[,i])=>s+i.bytes,0);for(let[s,i]of o)r<=(e?ki:
Mi)||s===n||(ct(Ut(t),i.rope),t.kept.delete(s),r-=i.bytes)}function $e(t,e){return e?(t.bodies.has(e)||(t.bodies.set(e,[]),t.unpacking.add(e),Ri(t,e).then(n=>{t.
unpacking.delete(e),t.bodies.set(e,n),t.changed(null)},n=>{t.unpacking.delete(e),t.changed(null),t.failed(`The tools can't be drawn: ${at(n)}`)})),t.bodies.get(
e)||[]):[]}async function Ri(t,e){let n=await In(e,e.points,e.faces),o=0;return e.parts.map(r=>{let s=n.faces.subarray(3*o,3*(o+r.faces));o+=r.faces;let i=Vn({points:n.
points,faces:s},Ii);return{...r,shape:i,onCard:Be(Ut(t),i)}})}var Ii=25*Math.PI/180;function Li(t,{width:e,height:n}){if(t.pictures.length===1)return[[0,0,e,n]];n-=t.strip;let[o,r]=[Math.floor(e/2),Math.floor(n/2)],s=[[0,0,o,n],[o,0,e-o,n]],i=[
[0,0,e,r],[0,r,e,n-r]],c=a=>Math.min(...a.map((f,l)=>bo(t,l,f)));return c(s)>=c(i)?s:i}var Ci=520,Ni=.4;function Pi({corner:t,pictures:e},{width:n,height:o}){return n>=
Ci&&e.length===1||t.offsetTop>=o?0:Math.min(t.offsetHeight+8,Ni*o)}function xo({data:t,pictures:e,view:n,strip:o},r,[,,s,i]){let c=e.length===1?o:0;return yo(e[r],
n,s,i,t.diameter,c)}function bo(t,e,n){return t.pictures[e].views?xo(t,e,n).scale:1/0}function De(t,e){let n=t.getBoundingClientRect(),o=Math.min(window.devicePixelRatio||
1,e),[r,s]=[n.width,n.height].map(a=>Math.max(Math.round(a),2)),[i,c]=[Math.round(r*o),Math.round(s*o)];return t.width!==i&&(t.width=i),t.height!==c&&(t.height=
c),{width:r,height:s,ratio:o}}function ft(t){t.size=De(t.canvas,t.slow?2:3),t.strip=Pi(t,t.size),t.boxes=Li(t,t.size);let e=t.boxes.map((n,o)=>bo(t,o,n));t.pictures.
forEach((n,o)=>_i(t,o,Math.min(...e))),$i(t)}function _i(t,e,n){let[,,o,r]=t.boxes[e],s=t.pictures[e];if(!s.views)return;let i=t.cameras[e],c=i&&i.picture===s&&
i.moved,a=c?i:{...xo(t,e,t.boxes[e]),scale:n};t.cameras[e]={...$(a,o,r),picture:s,moved:c}}function $i(t){let e=["as it should be","wrong"],n=([o,r],s)=>{let i=w(
"p",{class:s?"side bad":"side good",text:e[s]});return i.style.left=`${o}px`,i.style.top=`${r}px`,i};g("sides").replaceChildren(...t.boxes.length===2?[Bi(t),...t.
boxes.map(n)]:[])}function Bi({boxes:[,[t,e,n,o]]}){let r=w("i",{class:"divide"}),[s,i]=t>0?[1,o]:[n,1],c={left:t,top:e,width:s,height:i};for(let[a,f]of Object.
entries(c))r.style.setProperty(a,`${f}px`);return r}function po(t,{from:e,along:n},o,r,s){let i=new Float32Array(t.vertices),c={place:[0,0,0],station:0,depth:0,off:1/0};for(let[a,f]of o)for(let l=a;l<Math.min(f,t.
count[r]-1);l++)Di(t,l,e,n)&&Ui(t,i,r,l,{from:e,along:n,depth:s},c);return c.off<1/0?c:null}function Di({axis:t,radius:e},n,o,r){let s=P([t[3*n],t[3*n+1],t[3*n+
2]],o);return st(P(s,k(r,E(s,r))))<2.5*e[n]}function Ui({n:t,rays:e},n,o,r,s,i){let c=(o*t+r)*e;for(let a=0;a<e;a++){let f=(a+1)%e,l=[c+a,c+f,c+e+f,c+e+a];for(let[
u,d,m]of[[0,1,2],[0,2,3]])zi(n,[l[u],l[d],l[m]],s,i)}}function zi(t,e,{from:n,along:o,depth:r},s){let i=m=>[t[5*m],t[5*m+1],t[5*m+2]],c=Hi(i(e[0]),i(e[1]),i(e[2]),
n,o);if(!c)return;let a=Math.abs(c.depth-r);if(a>=s.off)return;let[f,l,u]=e.map(m=>t[5*m+4]),d=f*(1-c.b-c.c)+l*c.b+u*c.c;Object.assign(s,{place:A(n,k(o,c.depth)),
station:d,depth:c.depth,off:a})}function Hi(t,e,n,o,r){let[s,i]=[P(e,t),P(n,t)],c=z(r,i),a=E(s,c);if(Math.abs(a)<1e-12)return null;let f=P(o,t),l=E(f,c)/a,u=z(f,
s),d=E(r,u)/a;return l<0||d<0||l+d>1?null:{depth:E(i,u)/a,b:l,c:d}}var vo="\\d+(?:[.,]\\d+)?",Wi=new RegExp(`^(?:(${vo})?(?:\\s+|^)(\\d+)/([1-9]\\d*)|(${vo}))\\s*(mm|cm|m|in|"|inch|inches)?$`),Gi={mm:1,cm:10,m:1e3,in:25.4,'"':25.4,
inch:25.4,inches:25.4};function Mo(t,e){let n=Wi.exec(t.trim());if(!n)return NaN;let o=l=>Number((l||"0").replace(",",".")),[,r,s,i,c,a]=n,f=s?o(r)+o(s)/o(i):o(
c);return f>0?f*Gi[a||e]:NaN}function ie(t,e){if(e==="mm")return`${t.toFixed(1)} mm`;let n=Math.round(t/25.4*64),[o,r]=[Math.floor(n/64),n%64],s=r?ko(r,64):1;return`${[
o||!r?String(o):"",r?`${r/s}/${64/s}`:""].filter(Boolean).join(" ")} in (${t.toFixed(1)} mm)`}var ko=(t,e)=>e?ko(e,t%e):t;var ji=9,Vi=6.5,Yi=[.1,-.1,.24,-.24,.38,-.38,.5,-.5],Xi=38;function Eo(t,e,n,o){let r=t.cameras[n],s=C(t.store,e.state,!1),i=r.scale*t.data.diameter;if(!s||i<Xi||
t.choices.cut.way!=="off")return;let c=_(i*.12,Vi,ji),a=[];for(let[f,l]of e.paint.toned.entries()){let u=e.chips.filter(m=>m.opening===f),d=Ki(s,r,l);for(let m of u){
let h=Ji(o,{chip:m,seen:d,set:a,radius:c});h&&(a.push(h),tc(t,[o.left+h[0],o.top+h[1]],m,c))}}}function Ki(t,e,{host:n,half:o}){let r=t.station[1]-t.station[0],
s=u=>_(Math.round((u-t.station[0])/r),0,t.n-1),[i,c]=[s(n-o),s(n+o)],a=Array.from({length:c-i+1},(u,d)=>i+d),f=new Float32Array(t.vertices);return{lines:Array.from(
{length:t.strands},(u,d)=>a.map(m=>Y(e,qi(t,f,d,m)))),column:u=>s(n+u*o)-i}}function qi({n:t,rays:e},n,o,r){let s=[0,0,0];for(let i=0;i<e;i++){let c=5*((o*t+r)*
e+i);for(let a=0;a<3;a++)s[a]+=n[c+a]/e}return s}function Ji(t,{chip:e,seen:n,set:o,radius:r}){let i=Yi.map(l=>n.lines[e.strand][n.column(l)]).filter(([l,u])=>l>
r&&u>r&&l<t.width-r&&u<t.height-r&&o.every(([m,h])=>Math.hypot(l-m,u-h)>2*r+1)).filter(l=>!Qi(n.lines,e.strand,l,r)),c=i.filter(([l,u])=>t.leaders.every(d=>Zi(d,
[l,u])>r+1)),a=([l,u])=>Ot(t.numbers,l,u)?.strand===e.strand,f=c.find(a)||i.find(a);return f?[f[0],f[1]]:null}function Qi(t,e,[n,o,r],s){let i=([c,a,f])=>f>r&&Math.
hypot(n-c,o-a)<.6*s;return t.some((c,a)=>a!==e&&c.some(i))}function Zi([[t,e],[n,o]],[r,s]){let[i,c]=[n-t,o-e],a=_(((r-t)*i+(s-e)*c)/Math.max(i*i+c*c,1e-9),0,1);
return Math.hypot(r-t-a*i,s-e-a*c)}function tc(t,[e,n],{words:o,colour:r},s){let i=W("text",{x:e,y:n+.42*s,class:"chip-text","font-size":1.33*s});i.textContent=
o,t.over.append(W("circle",{cx:e,cy:n,r:s,class:"chip",fill:re(r)}),i)}var ec=14,nc=9,oc=2.5,rc=7,sc=3,ic=50,Ao={width:.4,height:.26},Oo={width:260,height:170};function cc(t,e){let n=[];for(let r of t){let s=n.find(i=>i.some(({at:c})=>st(
P(c,r.at))<nc*e));s?s.push(r):n.push([r])}let o=r=>r.filter(({letter:s})=>s).length;return n.sort((r,s)=>o(s)-o(r)).map(r=>ac(r,e))}function ac(t,e){let n=k(t.reduce(
(r,{at:s})=>A(r,s),[0,0,0]),1/t.length),o=Math.max(...t.map(({at:r})=>st(P(r,n))));return{places:t,middle:n,span:Math.max(2*(o+oc*e),rc*e)}}function So(t,e,n,o){
let r=t.cameras[n],s=C(t.store,e.state,!0);if(!s||r.moved||t.into||r.scale*t.data.diameter>=ec)return[];let c=[...e.marks.map(({letter:u,station:d})=>({letter:u,
at:zt(s,d)})),...e.labels.map(({at:u})=>({letter:"",at:u}))].filter(({at:u})=>{let[d,m]=Y(r,u);return d>4&&m>4&&d<o.width-4&&m<o.height-4}),a=Math.round(Math.min(
Ao.width*o.width,Oo.width)),f=Math.round(Math.min(Ao.height*o.height,Oo.height));if(f<ic)return[];let l={...o,boxes:o.boxes.slice(),leaders:o.leaders.slice()};return cc(
c,t.data.diameter).slice(0,sc).flatMap(({places:u,middle:d,span:m})=>{let h=Math.min(a,1.6*f)/m,y=Y(r,d),b=h<1.5*r.scale?null:To(l,y,[a,f]);return b?(l.boxes.push(
b.box),l.leaders.push(lt(b.box,y)),[{box:b.box,spot:y,places:u,camera:$({...r,centre:d,scale:h},a,f)}]):[]})}function Fo(t,e,n,{box:o,spot:r,places:s,camera:i}){
n.boxes.push(o),Ue(t,n,lt(o,r),!1);let c=w("canvas",{class:"inset","aria-hidden":"true"}),a={left:n.left+o[0],top:n.top+o[1],width:i.width,height:i.height};for(let[
f,l]of Object.entries(a))c.style.setProperty(f,`${l}px`);t.labels.append(c),fc(t,e,c,i,s)}async function fc(t,e,n,o,r){let{painter:s}=t,[i,c]=[o.width,o.height].
map(d=>Math.round(d*Math.min(t.size.ratio,2))),a=St(t,e,[0,0,i,c],o,!0);if(!a)return;let f=Ro(s,a);if(!await ce(s)||s!==t.painter)return;let{bytes:l}=Ht(s,f);if(!n.
isConnected)return;[n.width,n.height]=[i,c];let u=n.getContext("2d");if(u){u.putImageData(lc(l,i,c),0,0),u.scale(i/o.width,c/o.height);for(let{letter:d,at:m}of r)
d&&uc(u,d,Y(o,m))}}function lc(t,e,n){let o=new ImageData(e,n);for(let r=0;r<n;r++)for(let s=0;s<e;s++){let[i,c]=[4*((n-1-r)*e+s),4*(r*e+s)],a=t[i+3];for(let f=0;f<
3;f++)o.data[c+f]=a?255*t[i+f]/a:0;o.data[c+3]=a}return o}function uc(t,e,[n,o]){let r=getComputedStyle(t.canvas),[s,i]=[r.color,r.backgroundColor];t.font="600 \
13px system-ui, sans-serif",t.textAlign="center",t.lineJoin="round",t.lineWidth=4,t.strokeStyle=i,t.fillStyle=s,t.beginPath(),t.arc(n,o,3,0,2*Math.PI),t.fill(),
t.strokeText(e,n,o-7),t.fillText(e,n,o-7)}var rt=4,G=6,dc=180,mc=130,hc=30,Io=[-1,1],wc=300,gc=900;function fe(t,e){t.labels.replaceChildren(),t.over.replaceChildren(),We(t),e&&Bo(t)}function No(t,e){fe(
t,!0),t.pictures.forEach((n,o)=>{if(!n.views||t.motion<1)return;let r=xc(t,o,e.shift());Mc(t,n,o,r),t.choices.numbers&&Eo(t,n,o,r)})}function xc(t,e,n){let[o,r,
s,i]=t.boxes[e],[c,a]=[Math.ceil(s/rt),Math.ceil(i/rt)],f=bc(n,c,a),l=new Int32Array((c+1)*(a+1));for(let u=0;u<a;u++)for(let d=0;d<c;d++){let m=(u+1)*(c+1)+d+1;
l[m]=f[u*c+d]+l[m-1]+l[m-c-1]-l[m-c-2]}return{left:o,top:r,width:s,height:i,across:c,down:a,sums:l,numbers:n,boxes:pc(t,o,r),leaders:[]}}function bc({width:t,height:e,
bytes:n},o,r){let s=new Uint8Array(o*r);for(let i=0;i<e;i++){let c=o*Math.min(Math.floor((e-1-i)/rt),r-1);for(let a=0;a<t;a++){let f=4*(i*t+a);(n[f]||n[f+3])&&(s[c+
Math.floor(a/rt)]=1)}}return yc(s,o,r)}function yc(t,e,n){let o=t.slice();for(let r=0;r<t.length;r++){if(!t[r])continue;let[s,i]=[r%e,Math.floor(r/e)];s>0&&(o[r-
1]=1),s<e-1&&(o[r+1]=1),i>0&&(o[r-e]=1),i<n-1&&(o[r+e]=1)}return o}function pc({canvas:t,covers:e},n,o){let r=t.getBoundingClientRect();return e.flatMap(s=>[...s.
children]).filter(s=>s.offsetParent!==null).map(s=>{let i=s.getBoundingClientRect(),[c,a]=[i.left-r.left-n,i.top-r.top-o];return[c,a,c+i.width,a+i.height]})}function vc({
sums:t,across:e,down:n},[o,r,s,i]){let[c,a]=[_(Math.floor(o/rt),0,e),_(Math.ceil(s/rt),0,e)],[f,l]=[_(Math.floor(r/rt),0,n),_(Math.ceil(i/rt),0,n)],u=e+1;return t[l*
u+a]-t[l*u+c]-t[f*u+a]+t[f*u+c]}function Mc(t,e,n,o){let r=kc(t,e,n,o).map(c=>Ac(t,c)),s=Lo(o,r),i=So(t,e,n,o);for(;i.length>0;){let c={...o,boxes:[...o.boxes,...i.
map(({box:f})=>f)]};c.leaders=[...o.leaders,...i.map(({box:f,spot:l})=>lt(f,l))];let a=Lo(c,r);if(a.placed.size<s.placed.size){i=i.slice(0,-1);continue}s=a;break}
for(let c of i)Fo(t,e,o,c);for(let c of r)Fc(t,o,c,s.placed.get(c))}function Lo(t,e){let n=Ec(e),o=ze(n.map(r=>He(t,r,0)));if(o.cost>hc*e.length&&(o=ze([o,...Io.
flatMap(r=>n.map(s=>He(t,s,r)))])),o.poor.length>0){let r=[...o.poor,...e.filter(s=>!o.poor.includes(s))];o=ze([o,...[0,...Io].map(s=>He(t,r,s))])}return o}var ze=t=>t.
reduce((e,n)=>n.cost<e.cost?n:e);function kc(t,e,n,o){let r=C(t.store,e.state,!1),s=[];if(t.choices.marks&&r)for(let{letter:f,station:l,words:u}of e.marks)s.push(
{letter:f,words:u,at:zt(r,l)});if(t.choices.words)for(let{words:f,at:l}of e.labels)s.push({letter:"",words:f,at:l});let i=r&&Ge(t.choices.cut,r,t.cameras[n],t.data.
diameter);return s.filter(({at:f})=>!i||E(i.normal,f)<i.offset+.5*t.data.diameter).map(f=>({...f,spot:Y(t.cameras[n],f.at)})).filter(({spot:[f,l]})=>f>4&&l>4&&f<
o.width-4&&l<o.height-4)}function Ec(t){let e=t.slice().sort((r,s)=>r.spot[0]-s.spot[0]);if(t.length<2)return[e];let n=(t.length-1)/2,o=e.map((r,s)=>s).sort((r,s)=>Math.
abs(r-n)-Math.abs(s-n));return[e,e.slice().reverse(),o.map(r=>e[r])]}function Ac(t,{letter:e,words:n,spot:o}){let r=w("span",{text:n}),s=w("div",{class:"label"},
e?w("b",{text:e}):null,n?r:null);t.labels.append(s);let c=[[Oc(s,n?r:s.firstChild),s.offsetHeight]];return e&&n&&(r.remove(),c.push([s.offsetWidth,s.offsetHeight]),
s.append(r)),{letter:e,spot:o,said:r,made:s,sizes:c,spaces:new Map}}function Oc(t,e){let n=document.createRange();return n.selectNodeContents(e),Math.ceil(n.getBoundingClientRect().
right-t.getBoundingClientRect().left)+1}function He(t,e,n){let o={...t,boxes:t.boxes.slice(),leaders:t.leaders.slice()},r=new Map,s=[],i=0;for(let c of e){let a=Sc(
o,c,n);i+=a?a.away+wc*a.short:gc,(!a||a.short)&&s.push(c),a&&(r.set(c,a),o.boxes.push(a.box),o.leaders.push(lt(a.box,c.spot)))}return{cost:i,placed:r,poor:s}}function Sc(t,e,n){
for(let o of e.sizes.keys()){let r=Rc(t,e,o,n);if(r)return r}return null}function zt({axis:t,station:e,n},o){let r=_((o-e[0])/(e[1]-e[0]),0,n-1),s=Math.min(Math.
floor(r),n-2),i=c=>t[3*s+c]+(t[3*s+3+c]-t[3*s+c])*(r-s);return[i(0),i(1),i(2)]}function Fc(t,e,{letter:n,spot:o,said:r,made:s},i){if(!i){s.remove();return}let{box:c,
short:a}=i;a?r.remove():s.style.width=`${c[2]-c[0]}px`,s.style.left=`${e.left+c[0]}px`,s.style.top=`${e.top+c[1]}px`,e.boxes.push(c),Ue(t,e,lt(c,o),!n&&Tc(t,e,o))}
function Tc(t,{numbers:e},[n,o,r]){let s=Ot(e,n,o);return s!==null&&s.strand>=0&&s.toward>r+.45*t.data.diameter}function To(t,e,n){return Po(t,{spot:e,sizes:[n],
spaces:new Map},0,1/0,0).find(({box:r})=>_o(t,r,lt(r,e)))||null}function Rc(t,e,n,o){for(let r of e.letter?[dc,1/0]:[mc]){let i=Po(t,e,n,r,o).find(({box:c})=>_o(
t,c,lt(c,e.spot)));if(i)return i}return null}function Po(t,{spot:[e,n],sizes:o,spaces:r},s,i,c){let a=`${s} ${i} ${c}`,f=r.get(a);if(f)return f;let[l,u]=o[s],d=[],
m=2*rt,h=(p,x)=>G+m*Math.max(Math.floor((p-i-x-G)/m),0),[y,b]=[Math.min(t.width,e+i+l),Math.min(t.height,n+i+u)];for(let p=h(n,u);p+u+G<=b;p+=m)for(let x=h(e,l);x+
l+G<=y;x+=m){let v=[x,p,x+l,p+u];vc(t,[x-G,p-G,x+l+G,p+u+G])>0||d.push({away:Ic(v,[e,n],c),box:v,short:s})}return r.set(a,d.sort((p,x)=>p.away-x.away)),d}function Ic([
t,e,n,o],[r,s],i){let[c,a]=[Math.max(t-r,r-n,0),Math.max(e-s,s-o,0)];return Math.hypot(c,a)+.2*Math.abs((t+n+i*(t-n))/2-r)}function _o(t,e,n){let o=t.boxes.every(
s=>!Lc(e,s)),r=t.leaders.every(s=>!$o(n,s)&&!Co(s,e));return o&&r&&t.boxes.every(s=>!Co(n,s))}function Lc(t,e){return t[0]<e[2]+G&&e[0]<t[2]+G&&t[1]<e[3]+G&&e[1]<
t[3]+G}function lt([t,e,n,o],[r,s]){return[[_(r,t,n),_(s,e,o)],[r,s]]}var ae=(t,e,n)=>(e[0]-t[0])*(n[1]-t[1])-(e[1]-t[1])*(n[0]-t[0]);function $o([t,e],[n,o]){return ae(
t,e,n)*ae(t,e,o)<0&&ae(n,o,t)*ae(n,o,e)<0}function Co(t,[e,n,o,r]){let[[s,i],[c,a]]=t,f=(u,d)=>u>e&&u<o&&d>n&&d<r;if(f(s,i)||f(c,a))return!0;let l=[[e,n],[o,n],
[o,r],[e,r]];return l.some((u,d)=>$o(t,[u,l[(d+1)%4]]))}function Ue(t,e,[n,o],r){e.leaders.push([n,o]);let[s,i,c,a]=[e.left+n[0],e.top+n[1],e.left+o[0],e.top+o[1]];
t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:"halo"})),t.over.append(W("line",{x1:s,y1:i,x2:c,y2:a,class:r?"leader behind":"leader"})),t.over.append(W("cir\
cle",{cx:c,cy:a,r:3.5,class:r?"spot behind":"spot"}))}function We(t){t.under.replaceChildren(),t.pictures.forEach((e,n)=>{let{ghost:o}=e,r=o&&t.choices.ghost&&t.
cameras[n]?C(t.store,o.state,!1):null;if(!o||!r)return;let[s,i]=t.boxes[n],c=[];for(let l=0;l<r.n;l++){let[u,d,m]=r.axis.subarray(3*l,3*l+3);c.push(Y(t.cameras[n],
$t([u,d,m],o.turn)))}let a=c.map(([l,u],d)=>`${d?"L":"M"}${(s+l).toFixed(1)} ${(i+u).toFixed(1)}`).join(""),f=t.data.diameter*t.cameras[n].scale;t.under.append(
W("path",{d:a,class:"ghost-rim","stroke-width":f})),t.under.append(W("path",{d:a,class:"ghost","stroke-width":Math.max(f-3,1)}))})}function Do(t,e,n,o,r){let s=Ho(t,e,[n,o],r),i=s&&Cc(s,r),c=C(t.store,t.pictures[e].state,!0);if(!i||!c)return null;let{dx:a,dy:f,strand:l,toward:u,open:d}=i,m=t.
pictures[e],h=ne(t.cameras[e],n+a,o+f),{runs:y}=le(c,m.paint,t.choices.parts,ut),b=po(c,h,y,l,-u);return b?{place:d?A(h.from,k(h.along,-u)):b.place,station:b.station,
strand:l,panel:e}:null}function Cc(t,e){let n=null;for(let o=-e;o<=e;o++)for(let r=-e;r<=e;r++){let s=Math.hypot(r,o);if(s>e||n&&s>=n.away)continue;let i=Ot(t,e+
r,e+o);i&&i.strand>=0&&(n={...i,dx:r,dy:o,away:s})}return n}function Uo(t,e){let{points:n}=t.measured;(n.length===2||n.length===1&&n[0].panel!==e.panel)&&(n.length=
0),n.push({...e,picture:t.pictures[e.panel]}),Wt(t),F(t)}function je([t,e]){return{straight:st(P(e.place,t.place)),along:Math.abs(e.station-t.station)}}function Wt(t){
let{points:e}=t.measured,n=g("measured");if(e.length<2){n.replaceChildren(w("p",{text:e.length?"Now touch the second place.":"Nothing measured yet."}));return}let{
straight:o,along:r}=je(e),s=(i,c)=>[w("dt",{text:i}),w("dd",{text:ie(c,t.data.unit)})];n.replaceChildren(w("dl",{},...s("straight",o),...s("along the rope",r)))}
function zo(t){let e=t.pictures[0],n=C(t.store,e.state,!0),o=["mark-a","mark-b"].flatMap(s=>e.marks.filter(({letter:i})=>i===R(s).value));if(!n||o.length<2)return;
let r=o.map(({station:s})=>({place:zt(n,s),station:s,panel:0,picture:e}));t.measured.points=r,Wt(t),F(t)}function Bo(t){let e=t.measured.points.filter(({panel:n,
picture:o})=>t.pictures[n]===o&&t.cameras[n]).map(({place:n,panel:o})=>{let[r,s]=Y(t.cameras[o],n);return[t.boxes[o][0]+r,t.boxes[o][1]+s]});if(e.length===2){let[
[n,o],[r,s]]=e;for(let i of["halo","measure"])t.over.append(W("line",{x1:n,y1:o,x2:r,y2:s,class:i}))}for(let[n,o]of e)t.over.append(W("circle",{cx:n,cy:o,r:5,class:"\
measure-spot"}))}var Nc=[["off","no cut"],["across","across the rope"],["flat","along, level"],["upright","along, upright"]],ue=["across","upright"],Pc=[["corner","from a corner"],
["above","from above"],["below","from below"],["left","from the left"],["right","from the right"],["captive","from the captive end"],["eye","from the eye"]],_c=(t,e)=>[
t,e];function Ye(t){let e=t.pictures.flatMap(({paint:o})=>o?o.parts.map((r,s)=>_c(r,o.names[s])):[]),n=oe();g("parts").replaceChildren(...[...new Map(e)].map(([
o,r])=>$c(t,o,r))),!n.isConnected&&document.getElementById(n.id)&&g(n.id).focus(),Dc(t),Gt(t),n.closest("#corner")&&n.offsetParent===null&&t.canvas.focus(),Go(t),
g("see-through").setAttribute("aria-pressed",String(t.choices.parts[de]===Tt))}function $c(t,e,n){let o=[ut,Tt,Xo].map(i=>[i,i]),r=i=>Wo(t,e,At(i)),s=`part-${e}`;
return lo(n,fo({id:s,onchange:r},o,t.choices.parts[e]||ut))}function Wo(t,e,n){t.choices.parts[e]=n,Ye(t),F(t)}function Bc(t){let e=t.choices.parts[de]===Tt;Wo(
t,de,e?ut:Tt)}function Dc(t){let n=(t.pictures[0].views||[]).map((r,s)=>[`own-${s}`,s===0?"the step's own":"the step's other"]),o=R("view");o.replaceChildren(...[
...n,...Pc].map(([r,s])=>w("option",{value:r,text:s}))),o.value=`own-${t.view}`,g("other").hidden=n.length<2}function Xe(t,e){t.into=null,Gt(t),e.startsWith("ow\
n-")?(t.view=Number(e.slice(4)),t.cameras=[],ft(t)):t.pictures.forEach((n,o)=>{let[,,r,s]=t.boxes[o];n.views&&(t.cameras[o]={...Ko(n,e,r,s,t.data.diameter),picture:n,
moved:!0})}),R("view").value=e,F(t)}function bt(t){Xe(t,"own-0")}function Uc(t){let{views:e}=t.pictures[0];e&&Xe(t,`own-${(t.view+1)%e.length}`)}function Go(t){
let{cut:e}=t.choices;R("cut-way").value=e.way,R("cut-only").value=e.only,R("cut-place").value=String(e.place),R("cut-place").disabled=e.way==="off"}function Ve(t,e){
let{cut:n}=t.choices,o=n.way;Object.assign(n,e),n.way!==o&&(n.place=n.way==="flat"?.5:zc(t)),n.way!==o&&(t.into=null),Gt(t),ue.includes(n.way)?t.pictures.forEach(
(r,s)=>Ke(t,s)):ue.includes(o)&&bt(t),Go(t),F(t)}function zc(t){let{state:e,marks:n}=t.pictures[0],o=C(t.store,e,!1),r=n.find(({letter:s})=>s==="H2")||n[0];return e===
t.data.aim||!o||!r?t.data.cutPlace:(r.station-o.station[0])/(o.station[o.n-1]-o.station[0])}function Ke(t,e){let n=t.pictures[e],o=C(t.store,n.state,!1);if(!o)return;
let[,,r,s]=t.boxes[e],{cut:i}=t.choices,{centre:c,along:a}=qe(i,o),f=i.way==="across"?A(a,[0,0,.55]):A(z(a,[0,0,1]),[0,0,.35]),l=it(f,[0,0,1]),u=Math.min(r,s)/((i.
way==="across"?6:9)*t.data.diameter);t.cameras[e]={...$({...l,centre:c,scale:u},r,s),picture:n,moved:!0}}var Hc=[["terminator","terminator",(t,e)=>t.bodies.terminator=
e,t=>t.bodies.terminator],["tools","fids and other tools",(t,e)=>t.bodies.tools=e,t=>t.bodies.tools],["arrow","arrow for what moves",(t,e)=>t.bodies.arrow=e,t=>t.
bodies.arrow],["letters","marks with their letters",(t,e)=>t.marks=e,t=>t.marks],["labels","other labels",(t,e)=>t.words=e,t=>t.words],["numbers","numbers on th\
e strands",(t,e)=>t.numbers=e,t=>t.numbers],["ghost","where the rope lay before",(t,e)=>t.ghost=e,t=>t.ghost]];function jo(t){let e=([n,o,r,s])=>{let i=w("input",
{type:"checkbox",id:`show-${n}`,checked:s(t.choices)});return i.addEventListener("change",()=>{r(t.choices,i.checked),F(t)}),w("div",{class:"tick"},i,w("label",
{for:`show-${n}`,text:o}))};g("switches").replaceChildren(...Hc.map(e)),g("view").addEventListener("change",n=>Xe(t,At(n))),g("home").addEventListener("click",()=>bt(
t)),g("other").addEventListener("click",()=>Uc(t)),g("nearer").addEventListener("click",()=>Ft(t,1.35)),g("farther").addEventListener("click",()=>Ft(t,1/1.35)),
g("see-through").addEventListener("click",()=>Bc(t)),g("into").addEventListener("click",()=>Yo(t)),g("cut-way").replaceChildren(...Nc.map(([n,o])=>w("option",{value:n,
text:o}))),g("cut-way").addEventListener("change",n=>Ve(t,{way:At(n)})),g("cut-only").addEventListener("change",n=>Ve(t,{only:At(n)})),g("cut-place").addEventListener(
"input",n=>Ve(t,{place:Number(At(n))}));for(let n of["mark-a","mark-b"])g(n).addEventListener("change",()=>zo(t));g("measure-clear").addEventListener("click",()=>{
t.measured.points=[],Wt(t),F(t)})}function Ft(t,e){yt(t,n=>Bt(n,e,[0,0]))}function yt(t,e){t.cameras=t.cameras.map(n=>n&&{...e(n),picture:n.picture,moved:!0}),F(
t)}function Vo(t){let e=(t.pictures[0].marks||[]).map(({letter:n})=>[n,n]);for(let n of["mark-a","mark-b"]){let o=[["","a mark"],...e].map(([r,s])=>w("option",{
value:r,text:s}));g(n).replaceChildren(...o)}Wt(t)}var Wc=1.5*Math.PI,Gc=24;function Zo(t,e,n,o=0){let r=Jo(Yc(t),n),s=Jo(Xc(t,e),o),i=Kc(t,r,s),c=jc(t.n,i,r.axis);return{a:t,from:r,to:Qc(t,s,i),turns:i,...c,anchor:ta(
t.n,r.axis,s.axis)}}function jc(t,e,n){let[o,r]=[new Float64Array(t),new Float64Array(3*t)];if(qo(e,t-1)<Wc)return{swings:e,rolls:o,along:r};for(let a=1;a<t;a++){
let f=[0,1,2,3].reduce((l,u)=>l+e[4*a+u]*e[4*a-4+u],0);o[a]=o[a-1]+Math.acos(Math.min(Math.abs(f),1))}for(let a=0;a<t;a++){let[f,l]=[Math.max(a-1,0),Math.min(a+
1,t-1)],u=[0,1,2].map(m=>n[3*l+m]-n[3*f+m]),d=Math.max(Math.hypot(...u),1e-9);r.set(u.map(m=>m/d),3*a)}let s=[1,-1].map(a=>{let f=o.map(u=>a*2*Math.PI*u/o[t-1]),
l=Vc(e,f,r);return{swings:l,rolls:f,along:r,most:Math.max(...f.map((u,d)=>qo(l,d)))}}),[{swings:i,rolls:c}]=s.sort((a,f)=>a.most-f.most);return{swings:i,rolls:c,
along:r}}var qo=(t,e)=>2*Math.atan2(Math.hypot(t[4*e],t[4*e+1],t[4*e+2]),t[4*e+3]);function Vc(t,e,n){let o=new Float64Array(t.length);return e.forEach((r,s)=>{
let[i,c,a]=n.subarray(3*s,3*s+3),f=-Math.sin(r/2);o.set(tr(t.subarray(4*s,4*s+4),[f*i,f*c,f*a,Math.cos(r/2)]),4*s)}),o}var tr=(t,e)=>[t[3]*e[0]+t[0]*e[3]+t[1]*e[2]-
t[2]*e[1],t[3]*e[1]-t[0]*e[2]+t[1]*e[3]+t[2]*e[0],t[3]*e[2]+t[0]*e[1]-t[1]*e[0]+t[2]*e[3],t[3]*e[3]-t[0]*e[0]-t[1]*e[1]-t[2]*e[2]],Yc=({vertices:t,axis:e})=>({...er(
t),axis:Float32Array.from(e)});function Jo(t,e){let[n,o]=[Math.cos(e),Math.sin(e)];for(let r of[t.places,t.normals,t.axis])for(let s=0;s<r.length;s+=3){let[i,c]=[
r[s],r[s+1]];r[s]=n*i-o*c,r[s+1]=o*i+n*c}return t}function er(t){let[e,n]=[new Float32Array(t),new Int8Array(t)],o=t.byteLength/N,[r,s]=[new Float32Array(3*o),new Float32Array(
3*o)];for(let i=0;i<o;i++)for(let c=0;c<3;c++)r[3*i+c]=e[5*i+c],s[3*i+c]=n[N*i+12+c]/127;return{places:r,normals:s}}function Xc(t,e){let{places:n,normals:o}=er(
e.vertices),r=t.vertices.byteLength/N,s={places:new Float32Array(3*r),normals:new Float32Array(3*r),axis:new Float32Array(3*t.n)},i=e.station[1]-e.station[0];for(let c=0;c<
t.n;c++){let a=Math.min(Math.max((t.station[c]-e.station[0])/i,0),e.n-1),[f,l]=[Math.min(Math.floor(a),e.n-2),a-Math.min(Math.floor(a),e.n-2)];Je(e.axis,f,f+1,l,
s.axis,c);for(let u=0;u<t.strands;u++)for(let d=0;d<t.rays;d++){let[m,h]=[(u*e.n+f)*e.rays+d,(u*e.n+f+1)*e.rays+d],y=(u*t.n+c)*t.rays+d;Je(n,m,h,l,s.places,y),Je(
o,m,h,l,s.normals,y)}}for(let c=0;c<t.strands;c++)Qo(t,e,o,c,0,s),Qo(t,e,o,c,1,s);return s}function Qo(t,e,n,o,r,s){let i=({strands:u,n:d,rays:m})=>u*d*m+(r*u+o)*
(m+1),c=(o*t.n+(r?t.count[o]-1:0))*t.rays,[a,f]=[i(t),i(e)],l=s.places.subarray(3*(a+t.rays),3*(a+t.rays)+3);for(let u=0;u<=t.rays&&(s.normals.set(n.subarray(3*
f,3*f+3),3*(a+u)),u!==t.rays);u++){let d=s.places.subarray(3*(c+u),3*(c+u)+3);s.places.set(d,3*(a+u));for(let m=0;m<3;m++)l[m]+=d[m]/t.rays}}function Je(t,e,n,o,r,s){
for(let i=0;i<3;i++)r[3*s+i]=t[3*e+i]+(t[3*n+i]-t[3*e+i])*o}function Kc(t,e,n){let o=new Float64Array(4*t.n),r=[0,0,0,1];for(let s=0;s<t.n;s++){let i=Jc(qc(t,e,
n,s),r),c=i.reduce((a,f,l)=>a+f*r[l],0)<0?-1:1;r=i.map(a=>c*a),o.set(r,4*s)}return o}function qc({n:t,strands:e,rays:n},o,r,s){let i=new Float64Array(9),c=n>>1,
a=(p,x)=>{for(let v=0;v<3;v++)for(let M=0;M<3;M++)i[3*v+M]+=p[v]*x[M]},f=(p,x)=>[0,1,2].map(v=>(p.places[3*x+v]+p.places[3*(x+c)+v])/2-p.axis[3*s+v]);for(let p=0;p<
e;p++)a(f(o,(p*t+s)*n),f(r,(p*t+s)*n));let[l,u]=[Math.max(s-1,0),Math.min(s+1,t-1)],d=p=>[0,1,2].map(x=>p[3*u+x]-p[3*l+x]),[m,h]=[d(o.axis),d(r.axis)],y=i[0]+i[4]+
i[8],b=Math.sqrt(Math.max(Math.abs(y),1e-6))/Math.max(Math.hypot(...m),Math.hypot(...h),1e-9);return a(m.map(p=>p*b),h.map(p=>p*b)),i}function Jc(t,e){let[n,o,r,
s,i,c,a,f,l]=t,u=[[n-i-l,o+s,a+r,c-f],[o+s,i-n-l,c+f,a-r],[a+r,c+f,l-n-i,o-s],[c-f,a-r,o-s,n+i+l]],d=Math.max(...u.map(h=>h.reduce((y,b)=>y+Math.abs(b),0))),m=e.
map((h,y)=>h+.01*(y+1));for(let h=0;h<Gc;h++){let y=u.map((p,x)=>p.reduce((v,M,O)=>v+M*m[O],d*m[x])),b=Math.max(Math.hypot(...y),1e-300);m=y.map(p=>p/b)}return m}
function Qc({n:t,strands:e,rays:n,count:o},r,s){let i={places:new Float32Array(r.places.length),normals:new Float32Array(r.normals.length),axis:r.axis},c=new Float64Array(
9);return nr({n:t,strands:e,rays:n,count:o},(a,f)=>{Ze(Qe(s,f,-1),c);for(let[l,u]of[[r.places,r.axis],[r.normals,null]]){let[d,m,h]=[0,1,2].map(b=>l[3*a+b]-(u?u[3*
f+b]:0)),y=u?i.places:i.normals;for(let b=0;b<3;b++)y[3*a+b]=c[3*b]*d+c[3*b+1]*m+c[3*b+2]*h}}),i}function nr({n:t,strands:e,rays:n,count:o},r){let s=e*t*n,i=e*(n+
1);for(let c=0;c<e;c++)for(let a=0;a<=n;a++)r(s+c*(n+1)+a,0),r(s+i+c*(n+1)+a,o[c]-1);for(let c=0;c<t;c++)for(let a=0;a<e;a++)for(let f=0;f<n;f++)r((a*t+c)*n+f,c)}
function Qe(t,e,n){let[o,r,s,i]=t.subarray(4*e,4*e+4),c=Math.hypot(o,r,s),a=n*Math.atan2(c,i),f=c>1e-12?Math.sin(a)/c:0;return[o*f,r*f,s*f,Math.cos(a)]}function Zc({
swings:t,rolls:e,along:n},o,r){let s=Qe(t,o,r);if(e[o]===0)return s;let i=Math.sin(r*e[o]/2);return tr(s,[i*n[3*o],i*n[3*o+1],i*n[3*o+2],Math.cos(r*e[o]/2)])}function Ze([
t,e,n,o],r){r[0]=1-2*(e*e+n*n),r[1]=2*(t*e-o*n),r[2]=2*(t*n+o*e),r[3]=2*(t*e+o*n),r[4]=1-2*(t*t+n*n),r[5]=2*(e*n-o*t),r[6]=2*(t*n-o*e),r[7]=2*(e*n+o*t),r[8]=1-2*
(t*t+e*e)}function ta(t,e,n){let[o,r]=[0,1/0];for(let s=0;s<t;s++){let i=Math.hypot(e[3*s]-n[3*s],e[3*s+1]-n[3*s+1],e[3*s+2]-n[3*s+2]);i<.99*r&&([o,r]=[s,i])}return o}
function or(t,e,n,o){let{a:r,from:s,to:i}=t,c=new Float64Array(9*r.n);for(let d=0;d<r.n;d++)Ze(Zc(t,d,e),c.subarray(9*d,9*d+9));ea(t,e,c,o);let[a,f]=[new Float32Array(
n),new Int8Array(n)],[l,u]=[s.axis,1-e];nr(r,(d,m)=>{let[h,y,b]=[3*d,3*m,9*m],p=(s.places[h]-l[y])*u+i.places[h]*e,x=(s.places[h+1]-l[y+1])*u+i.places[h+1]*e,v=(s.
places[h+2]-l[y+2])*u+i.places[h+2]*e,M=s.normals[h]*u+i.normals[h]*e,O=s.normals[h+1]*u+i.normals[h+1]*e,S=s.normals[h+2]*u+i.normals[h+2]*e,T=127/Math.max(Math.
sqrt(M*M+O*O+S*S),1e-9);for(let I=0;I<3;I++){let[H,U,ht]=[c[b+3*I],c[b+3*I+1],c[b+3*I+2]];a[5*d+I]=o[y+I]+H*p+U*x+ht*v,f[N*d+12+I]=Math.round((H*M+U*O+ht*S)*T)}})}
function ea({a:t,from:e,to:n,turns:o,anchor:r},s,i,c){let a=new Float64Array(9),f=d=>e.axis[3*r+d]*(1-s)+n.axis[3*r+d]*s,l=[f(0),f(1),f(2)];c.set(l,3*r);let u=(d,m)=>{
Ze(Qe(o,d,-1),a);let h=[0,1,2].map(v=>n.axis[3*(d+m)+v]-n.axis[3*d+v]),b=[0,1,2].map(v=>e.axis[3*(d+m)+v]-e.axis[3*d+v]).map((v,M)=>v*(1-s)+(a[3*M]*h[0]+a[3*M+1]*
h[1]+a[3*M+2]*h[2])*s),p=9*d,x=v=>i[p+3*v]*b[0]+i[p+3*v+1]*b[1]+i[p+3*v+2]*b[2];l=[l[0]+x(0),l[1]+x(1),l[2]+x(2)],c.set(l,3*(d+m))};for(let d=r;d+1<t.n;d++)u(d,
1);l=[f(0),f(1),f(2)];for(let d=r;d>0;d--)u(d,-1)}function tn(t,e){let n=t*(e-1),o=Math.min(Math.floor(n),e-2);return{at:o,share:n-o}}function rr(t,e){let n=Math.round(t*(e-1))/(e-1);return Math.abs(n-t)<.02?n:
t}var na="On the way: drawn between settled shapes, not settled itself.",oa="On the way: this moment is settled strand by strand.";function en({pictures:[{ghost:t,
state:e,views:n},o]}){return o||!t||!n?[]:[t,...t.between,{state:e,turn:0}]}function ra(t){let e=en(t);if(e.length<2)return null;let{at:n,share:o}=tn(t.motion,e.
length),[r,s]=e.slice(n,n+2).map(({state:i})=>t.store.kept.get(se(i,"coarse")));return r&&s?{a:r.rope,b:s.rope,turns:e.slice(n,n+2).map(({turn:i})=>i),share:o}:
null}function sr(t,e){let n=t.motion<1&&t.pictures[0]===e?ra(t):null;if(!n)return null;let o=sa(t,n.a,n.b,n.turns);if(o.share!==n.share){let{rope:r}=o;or(o.morph,
n.share,r.vertices,r.axis);let{gl:s}=t.painter;s.bindBuffer(s.ARRAY_BUFFER,r.buffer),s.bufferSubData(s.ARRAY_BUFFER,0,r.vertices),o.share=n.share}return o.rope}
function sa(t,e,n,o){let r=t.moving;if(r&&r.a===e&&r.b===n)return r;ia(t);let s=e.vertices.slice(0),i=Float32Array.from(e.radius,(a,f)=>Math.max(a,n.radius[Math.
min(f,n.n-1)])),c=Et(t.painter.gl,{...e,vertices:s,axis:e.axis.slice(),radius:i});return t.moving={a:e,b:n,morph:Zo(e,n,o[0],o[1]),rope:c,share:-1},t.moving}function ia(t){
t.moving&&ct(t.painter.gl,t.moving.rope),t.moving=null}var ir=t=>({...t,inked:[],dots:[]});function cr(t){t.motion=1;let e=en(t).length;g("motion").hidden=e<2||
t.practice.on,R("way").value="1";let n=Array.from({length:Math.max(e-2,0)},(o,r)=>(r+1)/(e-1));g("moments").replaceChildren(...n.map(o=>w("option",{value:String(
o)})))}function ca(t,e){let{at:n,share:o}=tn(t,e);return n>0&&o<1e-9?oa:na}function ar(t){let e=R("way");e.addEventListener("input",()=>{let n=en(t);for(let{state:o}of n)
ot(t.store,o,!1,!0);t.motion=rr(Number(e.value),n.length),e.setAttribute("aria-valuetext",t.motion<1?`${Math.round(100*t.motion)} % of the way`:"this step"),Q(t,
t.motion<1?ca(t.motion,n.length):""),F(t)})}var fr=new Map;function Z(t){try{return localStorage.getItem(t)}catch{return fr.get(t)||null}}function j(t,e){try{localStorage.setItem(t,e)}catch{fr.set(t,e)}}function V(t,e){if(t.practice={on:e,at:0,tries:0,first:0,done:!1},document.body.classList.toggle("practising",e),g("practise").setAttribute("aria-pressed",String(
e)),!e){t.entries=t.all.steps,L(t,t.leftAt||0);return}t.entries===t.all.steps&&(t.leftAt=t.at),t.bench&&et(t,!1),tt(t,"words"),hr(t)}function ur({data:t},e){let n=t.
steps.find(({state:o})=>o===e);if(!n)throw new Error(`no step shows ${e}`);return n}function dr(t,e){let n=ur(t,e.before),o=pt({...n,bodies:null,labels:mr(n)},null);
return{kind:"question",key:"question",step:n,pictures:[o]}}var mr=({labels:t})=>(t||[]).filter(({words:e})=>e.endsWith("face"));function hr(t){let{practice:e,data:n}=t,
o=n.practice[e.at];if(!o){da(t);return}e.tries=0,t.entries=[dr(t,o)],L(t,0),wr(t,o)}function wr(t,e){let{practice:n,data:o}=t,r=s=>{let i=()=>fa(t,e,s);return w(
"button",{type:"button",class:"answer",text:s.words,onclick:i})};g("words").replaceChildren(w("h2",{id:"title",tabindex:"-1",text:`Question ${n.at+1} of ${o.practice.
length}`}),w("p",{class:"ask",text:e.ask}),...aa(e.options).map(r)),g("title").focus()}function aa(t){return t.map(e=>({at:Math.random(),option:e})).sort((e,n)=>e.
at-n.at).map(({option:e})=>e)}function fa(t,e,n){let{practice:o}=t;if(o.tries+=1,n.right&&o.tries===1&&(o.first+=1),n.right){let c=ur(t,n.shows),a=[pt({...c,labels:mr(
c)},null)];t.entries=[{kind:"question",key:"question",step:c,pictures:a}],lr(t,n,"Right.",[],["Go on",()=>la(t)]);return}let r=t.all.wrong.filter(({way:c})=>c.state===
n.shows),[{way:s}]=r,i=[w("h3",{text:"What gives it away"}),J("ul",s.signs)];t.entries=r,lr(t,n,`This is the result: ${s.title}.`,i,["Try again",()=>ua(t,e)])}function lr(t,e,n,o,[
r,s]){L(t,0),g("words").replaceChildren(w("h2",{id:"title",tabindex:"-1",class:e.right?"right":"wrong",text:n}),w("p",{text:e.why}),...o,w("button",{type:"butto\
n",class:"next",text:r,onclick:s})),g("title").focus()}function la(t){t.practice.at+=1,hr(t)}function ua(t,e){t.entries=[dr(t,e)],L(t,0),wr(t,e)}function da(t){
let{practice:e,data:n}=t,o=`fidpath practice ${n.method} ${n.name}`,r=Math.max(Number(Z(o)||0),e.first);j(o,String(r));let s=n.practice.length;g("words").replaceChildren(
w("h2",{id:"title",tabindex:"-1",text:`${e.first} of ${s} right at the first try`}),w("p",{text:`Best so far: ${r} of ${s}. The score is kept on this device onl\
y.`}),w("button",{type:"button",class:"next",text:"Once more",onclick:()=>V(t,!0)}),w("button",{type:"button",text:"Back to the steps",onclick:()=>V(t,!1)})),g(
"title").focus()}var Rt=["words","look","measure","marks","wrongs","care"];function tt(t,e){t.tab=e,document.body.dataset.tab=e;for(let n of Rt){g(n).hidden=n!==e;let o=g(`tab-${n}`);
o.setAttribute("aria-selected",String(n===e)),o.tabIndex=n===e?0:-1}t.canvas.classList.toggle("picking",e==="measure")}function gr(t){for(let e of Rt)g(`tab-${e}`).
addEventListener("click",()=>tt(t,e));g("tabs").addEventListener("keydown",e=>{let n={ArrowLeft:-1,ArrowRight:1}[e.key];if(!n)return;e.preventDefault();let o=Rt[(Rt.
indexOf(t.tab)+n+Rt.length)%Rt.length];tt(t,o),g(`tab-${o}`).focus()})}function et(t,e){t.bench=e,document.body.classList.toggle("benching",e),g("bench").setAttribute(
"aria-pressed",String(e)),e&&t.practice.on&&V(t,!1),e&&tt(t,"words"),nn(t),me(t)}async function nn(t){let e=()=>t.bench&&document.visibilityState==="visible";if(navigator.
wakeLock){if(!e()){t.awake&&t.awake.release(),t.awake=null;return}if(!(t.waking||t.awake&&!t.awake.released)){t.waking=!0;try{t.awake=await navigator.wakeLock.request(
"screen")}catch{t.awake=null}t.waking=!1,e()||nn(t)}}}function xr(){let t=n=>{document.documentElement.dataset.light=n,g("light").textContent=n==="dark"?"Light":
"Dark"},e=window.matchMedia("(prefers-color-scheme: dark)").matches?"dark":"light";t(Z("fidpath light")||e),g("light").addEventListener("click",()=>{let n=document.
documentElement.dataset.light==="dark"?"light":"dark";t(n),j("fidpath light",n)})}function br(t){let{slider:e,before:n,after:o}=t.steer;e.addEventListener("inpu\
t",()=>L(t,Number(e.value))),n.addEventListener("click",()=>L(t,t.at-1)),o.addEventListener("click",()=>L(t,t.at+1)),g("light").addEventListener("click",()=>F(t)),
g("bench").addEventListener("click",()=>et(t,!t.bench)),document.addEventListener("visibilitychange",()=>nn(t)),g("practise").addEventListener("click",()=>V(t,!t.
practice.on))}var he={name:"silent",at:0,pause:0};function yr(t,e,n){let{name:o,at:r,pause:s}=t;return e.is==="start"?{reading:{name:"saying",at:0,pause:e.pause},deed:"say"}:
o==="silent"?{reading:t,deed:"none"}:e.is==="stop"?{reading:he,deed:"hush"}:e.is==="moved"?{reading:{...t,name:"saying",at:0},deed:"say"}:e.is==="said"&&o==="sa\
ying"?r+1>=n&&s===0?{reading:he,deed:"hush"}:{reading:{...t,name:"pausing"},deed:"wait"}:e.is==="waited"&&o==="pausing"?r+1>=n?{reading:t,deed:"go on"}:{reading:{
...t,name:"saying",at:r+1},deed:"say"}:{reading:t,deed:"none"}}var pr=t=>[...t.querySelectorAll("h2, ol > li, ul:not(.key) > li, .check label, p")];var ma=.6,ha=[["0","stop"],["5","go on: 5 s a sentence"],["15","go on: 15 s a sentence"],["40","go on: 40 s a sentence"]];function vr(t){let{speechSynthesis:e}=window;
!e||typeof SpeechSynthesisUtterance>"u"||(g("aloud").hidden=!1,R("pause").replaceChildren(...ha.map(([n,o])=>w("option",{value:n,text:o}))),R("pause").value=Z("\
fidpath pause")||"0",R("pause").addEventListener("change",()=>j("fidpath pause",R("pause").value)),g("read").addEventListener("click",()=>{let n=t.reading.name===
"silent";vt(t,n?{is:"start",pause:Number(R("pause").value)}:{is:"stop"})}),window.addEventListener("pagehide",()=>vt(t,{is:"stop"})))}function Mr(t){let e=t.entry.
kind==="step"||t.entry.kind==="aim";g("aloud").classList.toggle("off",!e),t.reading.name!=="silent"&&vt(t,{is:e?"moved":"stop"})}function vt(t,e){let n=pr(g("wo\
rds")),{reading:o,deed:r}=yr(t.reading,e,n.length);if(t.reading=o,r==="none")return;clearTimeout(t.aloud),r==="say"&&ga(t,n[o.at]),r==="hush"&&window.speechSynthesis.
cancel(),r==="wait"&&(t.aloud=setTimeout(()=>vt(t,{is:"waited"}),1e3*(o.pause||ma))),r==="go on"&&wa(t);let s=o.name==="silent";g("read").textContent=s?"Read al\
oud":"Stop reading",g("read").setAttribute("aria-pressed",String(!s));for(let[i,c]of n.entries())c.classList.toggle("reading",!s&&i===o.at)}function wa(t){t.at+
1<t.entries.length?L(t,t.at+1):vt(t,{is:"stop"})}function ga(t,e){let n=window.speechSynthesis,o=new SpeechSynthesisUtterance(e.textContent||"");o.lang=document.
documentElement.lang,t.spoken=o;let r=()=>{t.spoken===o&&vt(t,{is:"said"})};o.onend=r,o.onerror=({error:s})=>{s!=="interrupted"&&s!=="canceled"&&t.spoken===o&&vt(
t,{is:"stop"})},n.cancel(),n.speak(o),e.scrollIntoView({block:"nearest"})}function kr(t){document.body.classList.toggle("card-only",t),window.print()}function Er(){window.addEventListener("afterprint",()=>document.body.classList.remove(
"card-only"))}var Ar=()=>w("div",{class:"print"},w("button",{type:"button",id:"print-card",text:"Print this card",onclick:()=>kr(!0)}),w("button",{type:"button",
id:"print-all",text:"Print card and steps",onclick:()=>kr(!1)}));function ge(t,e){let n=["what","how much","measured from"].map(s=>w("th",{scope:"col",text:s})),o=({label:s,shown:i,measured_from:c,note:a})=>w("tr",{},w("th",{
scope:"row",text:s}),w("td",{text:i}),w("td",{},c,a?w("small",{text:a}):null)),r=w("thead",{},w("tr",{},...n));return w("table",{},w("caption",{text:t}),r,w("tb\
ody",{},...e.map(o)))}var we=(t,...e)=>w("details",{},w("summary",{text:t}),...e);function xa(t){let e=({label:n,formula:o,source:r})=>[w("dt",{text:n}),w("dd",
{text:`${o} [${r}]`})];return w("dl",{},...t.flatMap(e))}function Or(t,{marks:e}){let n=t.data.tables.marks.filter(({label:o})=>(e||[]).some(({letter:r})=>o===r||
o.startsWith(`${r},`)));return n.length===0?null:w("div",{class:"own-marks"},ge("Marks of this step",n))}function Sr(t){let{tables:e}=t.data;g("marks").replaceChildren(
ge("Marks, in the order in which they are made",e.marks),Ar(),we("Lengths",ge("Lengths",e.lengths)),we("Angles, counts and tensions",ge("Angles, counts and tens\
ions",e.figures)),we("Formulas and sources",xa([...e.marks,...e.lengths,...e.figures])),...e.words.length>0?[we("Words",J("ul",e.words))]:[]);let n=[w("h3",{text:"\
Warnings of this plan"}),J("ul",e.warnings)],o=[w("h2",{text:"Cautions"}),J("ul",e.cautions)];g("care").replaceChildren(...o,...e.warnings.length>0?n:[]),g("wro\
ngs").replaceChildren(w("h2",{text:"Usual mistakes"}),w("p",{text:"Tap the picture that looks like your rope. Each shows the mistake beside the right way."}),w(
"ol",{class:"mistake-grid"},...t.all.wrong.map((r,s)=>ba(t,r,s+1))))}function ba(t,e,n){let{state:o,step:r,title:s}=e.way,i=document.querySelector(`#plain img[d\
ata-state="${CSS.escape(o)}"]`),c=i instanceof HTMLImageElement?w("img",{src:i.src,alt:""}):null,a=w("span",{text:`${n}. ${s} (step ${r})`});return w("li",{},w(
"button",{type:"button",onclick:()=>on(t,e)},c,a))}function xe(t){let{entry:e}=t,n=e.kind==="wrong"?Ea(t,e.way):ya(t,e),o=g("words").contains(document.activeElement);g("words").replaceChildren(...n.filter(r=>r!==
null)),o&&!g("words").contains(document.activeElement)&&g("title").focus(),g("words").scrollTop=0,Mr(t)}function ya(t,e){let n=w("h2",{id:"title",tabindex:"-1",
text:jt(t,e)}),o=va(t,e.pictures[0]);if(e.kind==="aim"){let f=[t.data.summary,"Turn it with a finger or the mouse. Then go through the steps one by one."].map(l=>w(
"p",{text:l}));return[n,...f,...Tr(t),o,rn(t.data.caution)]}let{step:r}=e,s=r.caution?[rn(r.caution)]:[],i=Or(t,e.pictures[0]),c=Fr(t,r);return[n,J("ol",r.instructions),
i,c,...s,...pa(t,r),...ka(t,r),o]}function pa(t,e){return e!==t.data.steps[t.data.steps.length-1]?[]:[w("button",{type:"button",text:"Type in what you measured",
onclick:()=>{t.bench&&et(t,!1),tt(t,"measure"),g("typed").scrollIntoView({block:"start"}),g("typed").querySelector("input")?.focus({preventScroll:!0})}})]}var rn=t=>w(
"p",{class:"caution"},w("b",{text:"Take care. "}),t);function va({data:t},{paint:e}){if(!e)return"";let n=(r,s)=>w("li",{},...r.map(i=>Ma(w("i",{class:"swatch"}),
i)),s),o=e.names.map((r,s)=>n(e.pairs[s],r));return e.toned.length>0&&(o.push(n([t.palette.groups[0]],"top group"),n([t.palette.groups[1]],"bottom group")),e.toned.
some(({followed:r})=>r>0)&&o.push(n([t.palette.groups[2]],"one strand of the group")),o.push(n([t.palette.dot[0]],"dotted face"),n([t.palette.plainFace],"plain \
face"))),w("ul",{class:"key","aria-label":"Colours"},...o)}function Ma(t,e){return t.style.background=re(e),t}function ka(t,e){let n=t.all.wrong.filter(({way:r})=>String(
r.step)===e.name.replace(/[a-z]$/,""));if(n.length===0)return[];let o=r=>w("button",{type:"button",class:"link",text:r.way.title,onclick:()=>on(t,r)});return[w(
"div",{class:"here"},w("h3",{text:"What goes wrong here"}),...n.map(o))]}function Ea(t,e){let n=e.off?[w("h3",{text:"How far off"}),w("p",{text:e.off})]:[];return[
w("h2",{id:"title",tabindex:"-1",text:jt(t,t.entry)}),w("h3",{text:"What gives it away"}),J("ul",e.signs),...n,w("h3",{text:"Remedy"}),J("ol",e.back),rn(t.data.
doubt),w("button",{type:"button",text:"Back to the steps",onclick:()=>sn(t)})]}function on(t,e){t.entries===t.all.steps&&(t.leftAt=t.at),t.entries=t.all.wrong,L(
t,t.all.wrong.indexOf(e)),tt(t,"words"),g("title").focus()}function sn(t){t.entries=t.all.steps,L(t,t.leftAt||0)}var Aa=800,Rr=["bench","practise"];function be(t){let e=new URLSearchParams(t.slice(1)),n=[...e.keys()].find(o=>!Rr.includes(o))||"";return{at:e.get("at")||n,mode:Rr.
find(o=>e.has(o))||""}}function Ir(t){let e=t.practice.on?t.all.steps[t.leftAt||0]:t.entry,n=t.practice.on?"&practise":t.bench?"&bench":"";return`#at=${e.key}${n}`}
function me(t){let e=Ir(t),n=t.fragment===void 0;if(e===t.fragment||(t.fragment=e,n||t.returning))return;let o=performance.now(),r=o-t.keptAt<Aa?"replaceState":
"pushState";t.keptAt=o;try{history[r](null,"",e)}catch{}}function Oa(t){let{at:e,mode:n}=be(location.hash);t.returning=!0,t.practice.on!==(n==="practise")&&V(t,
n==="practise"),t.bench!==(n==="bench")&&et(t,n==="bench"),t.practice.on||It(t,e),t.returning=!1,t.fragment=Ir(t)}function Lr(t){let{mode:e}=be(location.hash);e===
"bench"&&et(t,!0),e==="practise"&&t.data.practice.length>0&&V(t,!0),window.addEventListener("popstate",()=>Oa(t))}function Vt(t,{name:e,method:n,tables:o}){let r=[
...o.marks,...o.lengths].map(({label:s,shown:i})=>[s,i]);return`fidpath ${t} ${n} ${e} ${Jt(JSON.stringify(r))}`}var cn=t=>Vt("checks",t);function an({data:t}){
let e=(Z(cn(t))||"").split(" ");return t.steps.map(({name:n})=>n).filter(n=>e.includes(n))}function Sa(t,e,n){let o=an(t).filter(r=>r!==e);j(cn(t.data),[...o,...n?
[e]:[]].join(" "))}function Fr(t,e){let n=`check-${e.name}`,o=w("input",{type:"checkbox",id:n,checked:an(t).includes(e.name)});o.addEventListener("change",()=>Sa(
t,e.name,o.checked));let r=w("label",{for:n},w("b",{text:"Check. "}),e.check);return w("div",{class:"check tick"},o,r)}function Tr(t){let e=an(t);if(e.length===
0)return[];let n=t.data.steps.map(({name:i})=>i),o=n[n.indexOf(e[e.length-1])+1],r=()=>It(t,`step-${o}`),s=()=>{j(cn(t.data),""),xe(t),g("title").focus()};return[
w("p",{text:`${e.length} of ${n.length} checks are ticked.`}),o?w("button",{type:"button",class:"next",text:`Go on at step ${o}`,onclick:r}):null,w("button",{type:"\
button",text:"Clear the ticks",onclick:s})]}function fn(t){let e=t.steps[t.steps.length-1],n=Object.keys(t.states),o=t.steps.find(({state:a})=>a===t.aim)||e,r=t.steps.map((a,f)=>{let l=Fa(t.steps[f-1],a);
return{kind:"step",key:`step-${a.name}`,step:a,pictures:[pt(a,l)]}}),s={...o,bodies:null,labels:[],...t.home},i={kind:"aim",key:"aim",step:o,pictures:[pt(s,null)]},
c=t.wrong.map(a=>({kind:"wrong",key:`wrong-${a.state}`,way:a,pictures:[pt({...a.right,missing:a.beside},null),pt({...a,missing:a.state},null)]}));return{aim:i,steps:[
i,...r],wrong:c,any:n.length>0}}function Fa(t,e){if(!t||!t.views||!e.views||t.state===e.state)return null;let n=e.between.map(({state:o,heading:r})=>({state:o,turn:e.
heading-r}));return{state:t.state,turn:e.heading-t.heading,between:n}}function pt({state:t,missing:e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,
bodies:f},l){return{state:t||e,heading:n,views:o,marks:r,paint:s,labels:i,chips:c,holes:a,bodies:f,ghost:l}}function L(t,e){let n=_(e,0,t.entries.length-1),o=n!==
t.at||t.entry!==t.entries[n];t.at=n,t.entry=t.entries[n],t.view=0,t.into=null,o&&(t.measured.points=[]),ln(t),me(t),o&&window.dispatchEvent(new CustomEvent("fid\
path-shown",{detail:t.entry.key}))}function ln(t){t.pictures=t.entry.pictures,t.cameras.length=t.pictures.length,document.body.classList.toggle("beside",t.pictures.
length>1),document.body.classList.toggle("old",Cr(t)),t.choices.cut.way!=="flat"&&Object.assign(t.choices.cut,{way:"off",place:.5}),ye(t),Ye(t),cr(t),ft(t),xe(t),
Ra(t),Vo(t),Q(t,un(t)),F(t)}function ye(t){for(let{state:e,views:n}of t.pictures){let o=!t.phase.ever&&e===t.data.aim&&t.data.home.only;n&&ot(t.store,e,!1,!0,o||
void 0)}}function un(t){return t.phase.name==="lost"?"The graphics card isn't available now. The picture comes back when the card does.":t.pictures.filter(({views:n})=>!n).
length>0?"This step isn't settled yet. Its picture will follow.":Cr(t)?"The picture is still that of the figures before. The new one follows.":""}function Cr({data:t,
pictures:e}){let n=t.old||[];return e.some(({state:o,views:r})=>r&&n.includes(o))}function Q(t,e,n){t.note.textContent=e,t.note.hidden=!e,clearTimeout(t.saying),
n&&(t.saying=setTimeout(()=>Q(t,""),n))}function jt(t,e){return e.kind==="aim"?"The aim: the finished splice":e.kind==="wrong"?`Mistake at step ${e.way.step}: ${e.
way.title}`:`Step ${e.step.name} of ${t.data.steps[t.data.steps.length-1].name}: ${e.step.caption}`}function Ta(t){return t.kind==="wrong"?"Mistake":t.kind==="a\
im"?"Aim":`Step ${t.step.name}`}function Ra(t){let{slider:e,place:n,before:o,after:r}=t.steer;e.max=String(t.entries.length-1),e.value=String(t.at),e.setAttribute(
"aria-valuetext",jt(t,t.entry)),n.textContent=Ta(t.entry);let s=oe();o.disabled=t.at===0,r.disabled=t.at===t.entries.length-1,s.disabled&&g("title").focus(),t.canvas.
setAttribute("aria-label",`Model of the rope. ${jt(t,t.entry)}`)}var Nr={name:"loading",turn:0,rest:0,fresh:!0,ever:!1};function Pr(t,e){if(t.name==="lost"&&e.is!=="restored")return Lt(t);switch(e.is){case"changed":return Ia(
t,e.rest);case"drawn":return t.name==="drawing"?La(t,e.whole):Lt(t);case"rested":return Ca(t,e);case"written":return t.name==="refining"&&e.turn===t.turn?Na(t,e.
later):Lt(t);case"renewed":return X(t,{name:"loading",turn:t.turn+1,fresh:!0},["stop"]);case"lost":return X(t,{name:"lost"},["stop","bare"]);default:return t.name===
"lost"?X(t,{name:"loading",turn:t.turn+1},["refill"]):Lt(t)}}var Lt=t=>({phase:t,deeds:[]}),X=(t,e,n)=>({phase:{...t,...e},deeds:n});function Ia(t,e){let n=t.name===
"drawing"?[]:["stop","frame"];return X(t,{name:"drawing",turn:t.turn+1,rest:e},n)}function La(t,e){if(!e)return X(t,{name:"loading"},[]);let n=t.fresh?["announc\
e","wait"]:["wait"];return X(t,{name:"resting",fresh:!1,ever:!0},n)}function Ca(t,{held:e,awaited:n}){return e?Lt(t):t.name==="smoothing"?X(t,{name:"done"},["sm\
ooth"]):t.name!=="resting"?Lt(t):n?X(t,{name:"loading"},[]):X(t,{name:"refining"},["fine"])}function Na(t,e){return e?X(t,{name:"smoothing"},["words","wait long\
er"]):X(t,{name:"done"},["words"])}var $r=170,Pa=700,_a=13e5,$a=150;function F(t,e=$r){dt(t,{is:"changed",rest:e})}function dt(t,e){let{phase:n,deeds:o}=Pr(t.phase,e);t.phase=n;for(let r of o)Ba[r](
t)}var Ba={frame:t=>requestAnimationFrame(()=>Ua(t)),stop:t=>clearTimeout(t.rest),wait:t=>_r(t,t.phase.rest),"wait longer":t=>_r(t,Pa),fine:t=>ja(t),smooth:t=>Yt(
t.painter,dn(t,!0),{...zr,over:Hr(t)}),words:Va,announce:Wa,bare:t=>{fe(t,!1),t.under.replaceChildren()},refill:ye};function _r(t,e){t.rest=setTimeout(()=>{Ga(t),
dt(t,{is:"rested",held:t.pointers.size>0,awaited:Dr(t)})},e)}function Br(t,e){if(!(e===null||t.pictures.some(({state:o})=>o===e))){t.pictures.some(({ghost:o})=>o&&
o.state===e)&&We(t),t.motion<1&&F(t);return}ue.includes(t.choices.cut.way)&&t.cameras.forEach((o,r)=>o&&!o.moved&&Ke(t,r)),F(t,Dr(t)?$r:0)}function Dr({store:t,
pictures:e,data:n}){let{making:o,queue:r,unpacking:s}=t,i=e.filter(({views:f})=>f),c=f=>f!==null&&f.data===t.data&&i.some(({state:l})=>l===f.kind),a=[n.terminator,
...i.map(f=>f.bodies)];return c(o)||r.some(c)||a.some(f=>f!==null&&s.has(f))}function dn(t,e){let{ratio:n}=t.size;return t.pictures.flatMap((o,r)=>{let s=t.boxes[r].
map(c=>Math.round(c*n)),i=o.views?St(t,o,s,t.cameras[r],e):null;return i?[i]:[]})}var Da=t=>t.pictures.filter(({views:e})=>e).length;function Ua(t){if(t.phase.name!==
"drawing")return;let e=performance.now(),n=dn(t,!0);Yt(t.painter,n,{pixel:t.size.ratio,over:1,shade:!0,coarse:!0}),fe(t,n.length>0),n.length>0&&t.firstTook===void 0&&
Ha(t,e);let o=n.length>0&&n.length===Da(t)&&!n.some(({former:r})=>r);dt(t,{is:"drawn",whole:o}),o&&za(t)}function za(t){if(t.waiting.length!==0){Ur(t);for(let e of t.
waiting.splice(0))e(performance.now())}}function Ha(t,e){Ur(t),t.firstTook=performance.now()-e,t.slow=t.firstTook>$a}function Ur({painter:{gl:t}}){t.bindFramebuffer(
t.FRAMEBUFFER,null),t.readPixels(0,0,1,1,t.RGBA,t.UNSIGNED_BYTE,new Uint8Array(4))}function Wa(t){ye(t);let e=document.documentElement;e.dataset.drawnAt=performance.
now().toFixed(1),e.dataset.drawn=String(Number(e.dataset.drawn||0)+1),window.dispatchEvent(new CustomEvent("fidpath-drawn"))}function Ga(t){for(let e of t.pictures)
e.views&&C(t.store,e.state,!1)&&t.motion===1&&Ya(t,e)&&ot(t.store,e.state,!0,!0)}var zr={pixel:1,shade:!0,coarse:!1},Hr=({size:t})=>t.ratio>=2?1:2;async function ja(t){
let e=Hr(t),n=t.slow&&t.canvas.width*t.canvas.height*e*e>_a,{painter:o}=t,{turn:r}=t.phase,s=[];Yt(o,dn(t,!0),{...zr,over:n?1:e,asked:s}),t.fine+=1,!(!await ce(
o)||o!==t.painter)&&(t.written=s.map(c=>Ht(o,c)),dt(t,{is:"written",turn:r,later:n}))}function Va(t){No(t,t.written.slice());for(let e of t.resting.splice(0))e(
performance.now());Xa(t)}function Ya(t,e){return t.cameras[t.pictures.indexOf(e)].scale*t.size.ratio*t.data.states[e.state].thickness>3.5}function Xa(t){for(let e of[
1,-1,2]){let n=t.entries[t.at+e];for(let{state:o,views:r}of n?n.pictures:[])r&&ot(t.store,o,!1,!1)}}var Wr={ahead:.88,aside:.48},Ka=2.1,qa=.85,Ja=1.5;function Gr({pictures:t}){return[...new Set(t.flatMap(({holes:e})=>(e||[]).map(({letter:n})=>n)))]}var jr=({into:t},{
holes:e})=>t&&e&&e.find(({letter:n})=>n===t)||null;function Vr(t,{up:e,left:n}){let[,,o]=t.views[0].axes,r=s=>k(s,E(s,o)<0?-1:1);return{ahead:r(e),aside:r(n),onTop:E(
e,o)>=0}}function Qa(t,e,n,o,r){let{ahead:s,aside:i}=Vr(t,e),c=K(A(k(s,Wr.ahead),k(i,Wr.aside))),[a,f]=t.views[0].axes,l=Math.abs(E(f,c))<.9?f:z(c,a),u=it(c,l),
d=Math.min(n,o-r)/(Ka*e.half),m=A(e.at,k(u.up,r/(2*d)));return $({...u,centre:m,scale:d},n,o)}function Yr(t,e){let n=jr(t,e);if(!n)return null;let{ahead:o,onTop:r}=Vr(
e,n);return{beforeAt:[n.station,qa*n.half],beforeStrands:gt(r?n.top:n.strands&~n.top),beforePlane:[...o,n.high],beforeAxis:[...n.at,Ja*t.data.diameter]}}function Yo(t){
let e=Gr(t),n=e[e.indexOf(t.into||"")+1]||null;if(!n){bt(t);return}t.into=n,t.pictures.forEach((o,r)=>{let s=jr(t,o);if(!s)return;let[,,i,c]=t.boxes[r],a=t.pictures.
length===1?t.strip:0;t.cameras[r]={...Qa(o,s,i,c,a),picture:o,moved:!0}}),Gt(t),F(t)}function Gt(t){let e=Gr(t),n=e[e.indexOf(t.into||"")+1],o=g("into");o.hidden=
e.length===0,o.textContent=n?`Into\xA0${n}`:"Out",o.setAttribute("aria-pressed",String(t.into!==null)),o.title=n?`Look into ${n}; the strands before it are seen\
 through`:"Back to the first view",document.body.classList.toggle("holed",e.length>0)}var ut="shown",Tt="seen through",Xo="left out",[de,Xr]=["standing-part","arrow"];function Kr(){return{parts:{},bodies:{terminator:!0,tools:!0,arrow:!0},marks:!0,
words:!0,numbers:!0,ghost:!0,cut:{way:"off",place:.5,only:"all"}}}var D=1e9,Za={station:-D,place:[D,D,D],across:[0,0,0]};function tf(t,e){let n=[...t.pairs];for(;n.
length<4;)n.push(n[n.length-1]);let o=[...t.starts,D,D,D].slice(0,3),r=[0,1].map(i=>t.toned[i]||{host:-D,half:1,shown:[1,1],top:0,followed:0}),s=[...t.inked,...Array(
12).fill(Za)].slice(0,12);return{pairs:nt(3,n.flat().map(xt)),starts:o,blend:t.blend,groups:nt(3,e.groups.map(xt)),toned:nt(3,r.map(({host:i,shown:c})=>[i,...c])),
tops:gt(r[0].top,r[1].top),followed:gt(r[0].followed,r[1].followed),fade:t.fade,inked:nt(1,s.map(({station:i})=>i)),inkPlaces:nt(3,s.map(({place:i})=>i)),inkAcross:nt(
3,s.map(({across:i})=>i)),marks:q(Math.min(t.inked.length,12)),inkHalf:t.inkHalf,ink:xt(e.ink),dots:nt(3,[...t.dots,[D,D,D],[D,D,D]].slice(0,2)),dotted:q(Math.min(
t.dots.length,2)),dotRadius:t.dotRadius,dotColours:nt(3,e.dot.map(xt))}}function ef({parts:t,starts:e}){return t.map((n,o)=>[n,o===0?-D:e[o-1],o<e.length?e[o]:D])}
function le(t,e,n,o){let r=ef(e),s=r.filter(([a])=>(n[a]||ut)===o),i=[];for(let[,a,f]of s){let l=i[i.length-1];l&&l[1]===a?l[1]=f:i.push([a,f])}let c=a=>s.includes(
a);return{runs:ro(t,i),startEnd:c(r[0]),farEnd:c(r[r.length-1]),whole:s.length===r.length}}function qe({place:t},e){let n=Math.round(t*(e.n-1)),o=s=>[e.axis[3*s],
e.axis[3*s+1],e.axis[3*s+2]],r=K(P(o(Math.min(n+4,e.n-1)),o(Math.max(n-4,0))));return{centre:o(n),along:r}}function Ge(t,e,n,o){if(t.way==="off")return null;let{
centre:r,along:s}=qe(t,e),i=t.way==="flat",a={across:s,flat:[0,0,1],upright:K(z([0,0,1],s))}[t.way],f=i?(t.place-.5)*2.2*o:E(a,r),l=E(a,n.toward)<0?-1:1;return{
normal:k(a,l),offset:f*l,mask:t.only==="all"?15:1}}function St(t,e,n,o,r){let{data:s,store:i,choices:c}=t,a=sr(t,e),f=a||C(i,e.state,r),l=f||wo(i,e.state);if(!l)
return null;let u=s.states[e.state],d=Ge(c.cut,l,o,s.diameter),m=le(l,e.paint,c.parts,ut),h=le(l,e.paint,c.parts,Tt),y=a?[]:nf(t,e,u),b=sf(l,o,y),p=tf(a?ir(e.paint):
e.paint,s.palette),x=Yr(t,e),[v,M]=[u.thickness,xt(s.palette.line)],O=[o.width,o.height];return{rect:n,size:O,camera:o,rope:l,cut:d,solid:m,clear:h,bodies:y,depths:b,
paint:p,before:x,thick:v,ink:M,former:!f}}function nf({data:t,store:e,choices:n,view:o},r,{seat:s}){let i=[],c=n.cut.only==="all",a=(f,l)=>i.push({...f,offset:l,
cut:c,colour:xt(rf(f))});s&&n.bodies.terminator&&$e(e,t.terminator).forEach(f=>a(f,s.centre));for(let f of $e(e,r.bodies)){let l=r.views[o]||r.views[0];(f.part===
Xr?n.bodies.arrow&&l.arrow:n.bodies.tools)&&a(f,[0,0,0])}return i}var of=[222,225,230];function rf({part:t,colour:e}){return t===Xr&&document.documentElement.dataset.
light==="dark"?of:e}function sf({axis:t,radius:e},{toward:n,centre:o},r){let s=E(n,o),[i,c]=[1/0,-1/0];for(let a=0;a<e.length;a+=2){let f=E(n,[t[3*a],t[3*a+1],t[3*
a+2]])-s;i=Math.min(i,f-1.5*e[a]),c=Math.max(c,f+1.5*e[a])}for(let{shape:a,offset:f}of r){let l=E(n,f)-s;for(let u=0;u<a.points.length;u+=3){let d=l+n[0]*a.points[u]+
n[1]*a.points[u+1]+n[2]*a.points[u+2];i=Math.min(i,d),c=Math.max(c,d)}}return[i-1,c+1]}function qr({axes:t,low:e,high:n}){let o=[];for(let r of[e[0],n[0]])for(let s of[
e[1],n[1]]){let i=A(k(t[0],r),k(t[1],s));for(let c of[e[2],n[2]])o.push(A(i,k(t[2],c)))}return o}function yo(t,e,n,o,r,s){let i=t.views[e]||t.views[0],[c,a,f]=i.
axes,l=Ie(qr(i),{right:c,up:a,toward:f},n,o-s,5*r),u=A(l.centre,k(a,s/(2*l.scale)));return $({...l,centre:u},n,o)}function Ko(t,e,n,o,r){let[s,i]=Kn[e],c=it($t(
s,t.heading),$t(i,t.heading));return Ie(qr(t.views[0]),c,n,o,5*r)}var cf=8;function mn(t,e,n,{solid:o,clear:r},[s,i]){let{gl:c}=t,a=Mt(t,"numbers",s,i,!1),f=Ct(t,"numbers");return pe(c,f,{...af(o),clearColours:(r||o).colour}),
B(c,f,{scale:[o.width/s,o.height/i],layered:r!==null}),B(c,f,{range:n.range,plane:n.plane}),ve(t,a),{buffer:hn(c,a),width:s,height:i,range:n.range,nearest:e.depths[1]}}
function hn(t,{frame:e,width:n,height:o}){let r=t.createBuffer();return t.bindFramebuffer(t.FRAMEBUFFER,e),t.bindBuffer(t.PIXEL_PACK_BUFFER,r),t.bufferData(t.PIXEL_PACK_BUFFER,
4*n*o,t.STREAM_READ),t.readPixels(0,0,n,o,t.RGBA,t.UNSIGNED_BYTE,0),t.bindBuffer(t.PIXEL_PACK_BUFFER,null),r}var af=({colour:t,depth:e})=>({colours:t,depths:e});
function ce({gl:t}){let e=t.fenceSync(t.SYNC_GPU_COMMANDS_COMPLETE,0);return e?(t.flush(),new Promise(n=>{let o=()=>{let r=t.isContextLost();r||t.getSyncParameter(
e,t.SYNC_STATUS)===t.SIGNALED?n(!r):setTimeout(o,cf)};o()})):Promise.resolve(!1)}function Ht({gl:t},{buffer:e,...n}){let o=new Uint8Array(4*n.width*n.height);return t.
bindBuffer(t.PIXEL_PACK_BUFFER,e),t.getBufferSubData(t.PIXEL_PACK_BUFFER,0,o),t.bindBuffer(t.PIXEL_PACK_BUFFER,null),t.deleteBuffer(e),{...n,bytes:o}}function Ot({
width:t,height:e,bytes:n,range:o,nearest:r},s,i){let[c,a]=[Math.floor(s),e-1-Math.floor(i)];if(c<0||a<0||c>=t||a>=e)return null;let f=4*(a*t+c),l=n[f]&127;if(l===
0)return n[f+3]?{strand:-1,toward:-1/0,open:!1}:null;let u=(n[f+1]*256+n[f+2])/65535*o;return{strand:l<wn?l-1:-1,toward:r-u,open:n[f]>127}}function Ho(t,e,[n,o],r){
let{painter:s,cameras:i,pictures:c}=t,a=2*r+1,{from:f}=ne(i[e],n,o),l=$({...i[e],centre:f},a,a),u=St(t,c[e],[0,0,a,a],l,!0);if(!u)return null;let d=xn(u,a,a),m=Mt(
s,"round",a,a,!0);return gn(s,u,d,m,{pixel:1,over:1,shade:!1,coarse:!1}),Ht(s,mn(s,u,d,{solid:m,clear:null},[a,a]))}var mt=`#version 300 es
precision highp float;
precision highp int;
`,Jr=`
uniform vec4 cut;
uniform float gloss;
uniform float ambient;
uniform float diffuse;

const vec3 KEY = vec3(-0.40274, 0.54919, 0.73225);
const vec3 FILL = vec3(0.77104, -0.21418, 0.59969);

float shine(float along, float lamp, float facing) {
float glint = max(2.0 * along * facing - lamp, 0.0) * step(1e-4, along);
float two = glint * glint;
float eight = two * two * two * two;
return eight * eight * two;
}

vec3 lit(vec3 colour, vec3 normal) {
vec3 n = normalize(normal);
if (n.z < 0.0) n = -n;
float a = max(dot(n, KEY), 0.0);
float b = max(dot(n, FILL), 0.0);
float glint = 0.92 * shine(a, KEY.z, n.z) + 0.40 * shine(b, FILL.z, n.z);
return colour * (ambient + diffuse * (0.92 * a + 0.40 * b)) + gloss * glint;
}
`,bn=`${mt}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in uint strand;
layout(location = 3) in float station;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 pairs[8];
uniform vec3 starts;
uniform float blend;
uniform vec3 groups[3];
uniform vec3 toned[2];
uniform float fade;
uniform uint tops[2];
uniform uint followed[2];
out vec3 vColour;
out vec3 vNormal;
out vec3 vPlace;
out float vStation;
flat out uint vGroup;
flat out uint vStretch;

float eased(float x) {
float t = clamp(x, 0.0, 1.0);
return t * t * t * (10.0 - 15.0 * t + 6.0 * t * t);
}

void main() {
uint hand = strand & 1u;
vec3 colour = pairs[hand];
for (uint i = 0u; i < 3u; i++) {
float share = eased((station - starts[i]) / blend + 0.5);
colour = mix(colour, pairs[2u * i + 2u + hand], share);
}
for (int i = 0; i < 2; i++) {
uint top = (tops[i] >> strand) & 1u;
uint group = ((followed[i] >> strand) & 1u) == 1u ? 2u : 1u - top;
float away = abs(station - toned[i].x) - (group == 2u ? toned[i].z : toned[i].y);
colour = mix(colour, groups[group], 1.0 - eased(away / fade + 0.5));
}
vColour = colour;
vNormal = turn * normal;
vPlace = place;
vStation = station;
vGroup = 1u + strand % 110u;
vStretch = station < starts.x ? 0u : station < starts.y ? 1u : station < starts.z ? 2u : 3u;
gl_Position = project * vec4(place, 1.0);
}
`,yn=t=>`${mt}
in vec3 vColour;
in vec3 vNormal;
in vec3 vPlace;
in float vStation;
flat in uint vGroup;
flat in uint vStretch;
uniform float inked[12];
uniform int marks;
uniform vec3 inkPlaces[12];
uniform vec3 inkAcross[12];
uniform vec2 inkHalf;
uniform vec3 ink;
uniform vec3 dots[2];
uniform int dotted;
uniform vec2 dotRadius;
uniform vec3 dotColours[2];
uniform uint cutMask;
uniform int beforeWay;
uniform vec2 beforeAt;
uniform uint beforeStrands;
uniform vec4 beforePlane;
uniform vec4 beforeAxis;
out vec4 colour;
${Jr}
bool isBefore() {
bool own = ((beforeStrands >> (vGroup - 1u)) & 1u) == 1u && abs(vStation - beforeAt.x) < beforeAt.y;
vec3 away = vPlace - beforeAxis.xyz;
float high = dot(away, beforePlane.xyz);
return own || (high > beforePlane.w && length(away - high * beforePlane.xyz) < beforeAxis.w);
}

void main() {
vec3 own = vColour;
for (int i = 0; i < marks; i++) {
vec3 away = vPlace - inkPlaces[i];
bool near = abs(vStation - inked[i]) < inkHalf.x && abs(dot(away, inkAcross[i])) < inkHalf.y;
if (near && away.z > 0.0) own = ink;
}
for (int i = 0; i < dotted; i++) {
float away = distance(vPlace, dots[i]);
if (away < dotRadius.y) own = dotColours[away < dotRadius.x ? 0 : 1];
}
uint group = vGroup;
${t?`if (((cutMask >> vStretch) & 1u) == 1u && dot(cut.xyz, vPlace) > cut.w) discard;
if (beforeWay > 0 && isBefore() != (beforeWay == 2)) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), float(group + 128u) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), float(group) / 255.0);
}
`,pn=`${mt}
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
uniform mat4 project;
uniform mat3 turn;
uniform vec3 offset;
out vec3 vNormal;
out vec3 vPlace;

void main() {
vNormal = turn * normal;
vPlace = place + offset;
gl_Position = project * vec4(vPlace, 1.0);
}
`,vn=t=>`${mt}
in vec3 vNormal;
in vec3 vPlace;
uniform vec3 own;
uniform float group;
out vec4 colour;
${Jr}
void main() {
${t?`if (dot(cut.xyz, vPlace) > cut.w) discard;
if (!gl_FrontFacing) {
colour = vec4(mix(own, vec3(1.0), 0.45), (group + 128.0) / 255.0);
return;
}`:""}
colour = vec4(lit(own, vNormal), group / 255.0);
}
`,Xt=`${mt}
void main() {
gl_Position = vec4(vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0), 0.0, 1.0);
}
`,Mn=`
uniform float range;
uniform vec4 plane;

float depthOf(sampler2D depths, sampler2D colours, ivec2 p) {
float depth = texelFetch(depths, p, 0).r;
if (depth >= 1.0) return 1e6;
if (plane.z == 0.0 || texelFetch(colours, p, 0).a <= 0.5) return depth * range;
return plane.x * float(p.x) + plane.y * float(p.y) + plane.w;
}
`,kn=t=>`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform int scale;
uniform float reach;
uniform float pixel;
out vec4 shade;
${Mn}
void main() {
ivec2 size = textureSize(depths, 0) / scale - 1;
ivec2 at = ivec2(gl_FragCoord.xy);
float here = depthOf(depths, colours, at * scale);
shade = vec4(0.0);
if (here > 9e5) return;
int tile = (at.y & 3) * 4 + (at.x & 3);
float phase = float((tile * 5) & 15) / 16.0;
float sum = 0.0;
for (int i = 0; i < ${t}; i++) {
float away = 1.5 * (float(i) + 0.5 + phase) / float(${t+1}) * reach;
float angle = 2.399963 * float(i) + 6.2831853 * phase;
ivec2 step = ivec2(round(away / pixel * vec2(cos(angle), sin(angle))));
float rise = here - depthOf(depths, colours, clamp(at + step, ivec2(0), size) * scale);
float fall = depthOf(depths, colours, clamp(at - step, ivec2(0), size) * scale) - here;
float lift = rise - clamp(fall, 0.0, away);
sum += clamp(lift / away, 0.0, 1.0) * clamp(4.0 - rise / reach, 0.0, 1.0);
}
shade = vec4(sum / float(${t}), 1.0, 0.0, 1.0);
}
`,Qr=`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D crevices;
uniform sampler2D clearColours;
uniform sampler2D clearDepths;
uniform int scale;
uniform int spread;
uniform int coarseness;
uniform bool shaded;
uniform bool layered;
uniform float clearShare;
uniform float step;
uniform vec3 ink;
out vec4 picture;
${Mn}
float lineAt(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size) {
float own = texelFetch(tints, p, 0).a;
float here = depthOf(fars, tints, p);
float line = 0.0;
for (int i = 0; i < 4; i++) {
ivec2 q = clamp(p + ivec2(i == 0 ? 1 : i == 1 ? -1 : 0, i == 2 ? 1 : i == 3 ? -1 : 0), ivec2(0), size);
float drop = clamp((depthOf(fars, tints, q) - here) / step, 0.0, 1.0);
line = max(line, texelFetch(tints, q, 0).a != own ? max(drop, 0.55) : 0.35 * drop);
}
return line;
}

float openAt(ivec2 at) {
if (!shaded) return 0.92;
ivec2 size = textureSize(crevices, 0) - 1;
vec2 sum = vec2(0.0, 1e-6);
for (int y = -spread; y < spread; y++) {
for (int x = -spread; x < spread; x++) {
sum += texelFetch(crevices, clamp(at / coarseness + ivec2(x, y), ivec2(0), size), 0).rg;
}
}
return 1.0 - min(1.5 * sum.x / sum.y, 1.0);
}

bool isEmpty(ivec2 p) {
return texelFetch(colours, p, 0).a == 0.0 && (!layered || texelFetch(clearColours, p, 0).a == 0.0);
}

vec4 layer(sampler2D tints, sampler2D fars, ivec2 p, ivec2 size, float open) {
vec4 tint = texelFetch(tints, p, 0);
if (tint.a == 0.0) return vec4(0.0);
return vec4(mix(tint.rgb * (0.34 + 0.66 * open), ink, 0.75 * lineAt(tints, fars, p, size)), 1.0);
}

void main() {
ivec2 at = ivec2(gl_FragCoord.xy);
ivec2 size = textureSize(depths, 0) - 1;
picture = vec4(0.0);
if (scale == 1 && isEmpty(at)) return;
float open = openAt(at);
vec4 sum = vec4(0.0);
for (int y = 0; y < scale; y++) {
for (int x = 0; x < scale; x++) {
ivec2 p = at * scale + ivec2(x, y);
vec4 found = layer(colours, depths, p, size, open);
if (layered) {
vec4 near = layer(clearColours, clearDepths, p, size, 0.92) * clearShare;
found = near + found * (1.0 - near.a);
}
sum += found;
}
}
picture = sum / float(scale * scale);
}
`,Zr=`${mt}
uniform sampler2D colours;
uniform sampler2D depths;
uniform sampler2D clearColours;
uniform vec2 scale;
uniform bool layered;
out vec4 numbers;
${Mn}
void main() {
ivec2 p = clamp(ivec2(gl_FragCoord.xy * scale), ivec2(0), textureSize(colours, 0) - 1);
float group = texelFetch(colours, p, 0).a;
float through = layered && texelFetch(clearColours, p, 0).a > 0.0 ? 1.0 : 0.0;
uint depth = uint(clamp(depthOf(depths, colours, p) / range, 0.0, 1.0) * 65535.0 + 0.5);
numbers = vec4(group, float(depth >> 8u) / 255.0, float(depth & 255u) / 255.0, through);
}
`;var ff=16,lf=6,ts={ambient:.32,diffuse:.72},uf={ambient:.8,diffuse:.25},df=.24,wn=112,es={rope:()=>[bn,yn(!1)],"rope-cut":()=>[bn,yn(!0)],body:()=>[pn,vn(!1)],"\
body-cut":()=>[pn,vn(!0)],compose:()=>[Xt,Qr],quick:()=>[Xt,kn(lf)],fine:()=>[Xt,kn(ff)],numbers:()=>[Xt,Zr]},mf=["rope","body","quick","compose"];function An(t){
let e=t.getContext("webgl2",{alpha:!0,antialias:!1,depth:!1,premultipliedAlpha:!0});if(!e)throw new Error("this browser has no WebGL2");let n={canvas:t,gl:e,programs:new Map,
patterns:new Map,targets:new Map,whole:e.createVertexArray()};for(let o of mf)n.programs.set(o,Ce(e,...es[o]()));for(let o of n.programs.values())Ne(e,o);return n}
function Ct(t,e){let n=t.programs.get(e)||Ne(t.gl,Ce(t.gl,...es[e]()));return t.programs.set(e,n),t.gl.useProgram(n.program),n}function ns(t){let e=Et(t.gl,{rays:3,
n:2,strands:1,refine:1,count:Int32Array.of(2),station:Float64Array.of(0,1),axis:new Float32Array(6),radius:Float32Array.of(1,1),vertices:new ArrayBuffer(N*14)}),
n=$({...it([0,0,1],[0,1,0]),centre:[0,0,0],scale:1},8,8),o={runs:[[0,1]],startEnd:!1,farEnd:!1,whole:!0},r={...o,runs:[]},s={points:new Float32Array(9),normals:new Float32Array(
9)},i={part:"",faces:1,colour:[0,0,0],gloss:0,flat:!1,offset:[0,0,0],cut:!1,shape:s,onCard:Be(t.gl,s)};Yt(t,[{rect:[0,0,8,8],size:[8,8],camera:n,rope:e,solid:o,
clear:r,bodies:[i],depths:[-1,1],cut:null,before:null,thick:1,paint:{},ink:[0,0,0]}],{pixel:1,over:1,shade:!0,coarse:!0}),ct(t.gl,e)}function Be(t,{points:e,normals:n}){
let o=t.createVertexArray();t.bindVertexArray(o);for(let[r,s]of[e,n].entries())Dt(t,t.ARRAY_BUFFER,s),t.enableVertexAttribArray(r),t.vertexAttribPointer(r,3,t.FLOAT,
!1,0,0);return t.bindVertexArray(null),{array:o,count:e.length/3}}function Mt(t,e,n,o,r){let s=t.targets.get(e);if(s&&s.width===n&&s.height===o)return s;s&&to(t.
gl,s);let i=Zn(t.gl,n,o,r);return t.targets.set(e,i),i}function Yt(t,e,n){let{gl:o,canvas:r}=t;o.bindFramebuffer(o.FRAMEBUFFER,null),o.disable(o.SCISSOR_TEST),o.
clearColor(0,0,0,0),o.clear(o.COLOR_BUFFER_BIT);for(let s of e)hf(t,s,n);e.length===0&&o.viewport(0,0,r.width,r.height)}function hf(t,e,n){Mf(t,e.rect,os(t,e,n))}
function Ro(t,e){let n=os(t,e,{pixel:1,over:2,shade:!0,coarse:!1,own:"inset "});return{buffer:hn(t.gl,n),width:n.width,height:n.height,range:1,nearest:0}}function os(t,e,n){
let[,,o,r]=e.rect,s=n.own||"",i=Math.max(Math.round(o/n.pixel),1),c=Math.max(Math.round(r/n.pixel),1),a=xn(e,i*n.over,c*n.over),f=Mt(t,`${s}solid`,i*n.over,c*n.
over,!0);gn(t,e,a,f,n);let u=e.clear.runs.length>0||e.before?yf(t,e,a,f,n):null;n.shade&&pf(t,e,a,f,i,c,n);let d=Mt(t,`${s}picture`,i,c,!1);return vf(t,e,a,{solid:f,
clear:u,picture:d},n),n.asked&&n.asked.push(mn(t,e,a,{solid:f,clear:u},e.size)),d}function gn(t,e,n,o,r){rs(t,o),En(t,e,n,e.solid,r,e.before?gf:On);for(let[s,i]of e.
bodies.entries())bf(t,e,n,i,s)}function xn({camera:t,depths:e,cut:n},o,r){let{right:s,up:i,toward:c,centre:a}=t,f=e[1]-e[0],l=[t.halfWidth,t.halfHeight,f/2],u=A(
a,k(c,e[1]-f/2)),d=[k(s,1/l[0]),k(i,1/l[1]),k(c,-1/l[2])],m=new Float32Array(16);d.forEach((b,p)=>{for(let x=0;x<3;x++)m[4*x+p]=b[x];m[12+p]=-E(b,p<2?a:u)}),m[15]=
1;let h=Float32Array.from([0,1,2].flatMap(b=>[s[b],i[b],c[b]])),y=2*t.halfWidth/o;return{project:m,turn:h,range:f,pixel:y,plane:wf(t,n,e[1],y,o,r)}}function wf({
right:t,up:e,toward:n,centre:o},r,s,i,c,a){if(!r||Math.abs(E(r.normal,n))<.001)return[0,0,0,0];let[f,l,u]=[t,e,n].map(h=>E(r.normal,h)),m=(r.offset-E(r.normal,o)+
f*(c/2-.5)*i+l*(a/2-.5)*i)/u;return[f/u*i,l/u*i,1,s-m]}function rs({gl:t},{frame:e,width:n,height:o}){t.bindFramebuffer(t.FRAMEBUFFER,e),t.viewport(0,0,n,o),t.enable(
t.DEPTH_TEST),t.clear(t.COLOR_BUFFER_BIT|t.DEPTH_BUFFER_BIT)}function ss(t,e,n){t.enable(t.CULL_FACE),e&&(t.cullFace(t.FRONT),t.enable(t.POLYGON_OFFSET_FILL),t.
polygonOffset(0,-16),n(),t.disable(t.POLYGON_OFFSET_FILL),t.cullFace(t.BACK)),n(),t.disable(t.CULL_FACE)}var is=t=>t?{cut:[...t.normal,t.offset]}:{},[On,gf,xf]=[
0,1,2];function En(t,e,n,o,r,s){let{rope:i,paint:c,cut:a,before:f}=e,l=a!==null||!o.whole||s!==On,u=Ct(t,l?"rope-cut":"rope");B(t.gl,u,{project:n.project,turn:n.
turn,...c,...ts,gloss:.15}),B(t.gl,u,{...is(a),cutMask:gt(a?a.mask:0)}),B(t.gl,u,{...f,beforeWay:q(s)});let d=so(i,2.5*e.thick/(n.pixel*r.over),r.coarse);ss(t.gl,
l,()=>io(t,i,o,e.camera,d))}function bf(t,e,n,o,r){let{gl:s}=t,i=o.cut?e.cut:null,c=Ct(t,i?"body-cut":"body"),a=o.flat?uf:ts,f=wn+r%15;B(s,c,{project:n.project,
turn:n.turn,...a,gloss:o.gloss,...is(i)}),B(s,c,{offset:o.offset,own:o.colour,group:f}),s.bindVertexArray(o.onCard.array),ss(s,i!==null,()=>s.drawArrays(s.TRIANGLES,
0,o.onCard.count))}function yf(t,e,n,o,r){let{gl:s}=t,{width:i,height:c}=o,a=Mt(t,`${r.own||""}clear`,i,c,!0);return rs(t,a),s.bindFramebuffer(s.READ_FRAMEBUFFER,
o.frame),s.bindFramebuffer(s.DRAW_FRAMEBUFFER,a.frame),s.blitFramebuffer(0,0,i,c,0,0,i,c,s.DEPTH_BUFFER_BIT,s.NEAREST),s.bindFramebuffer(s.FRAMEBUFFER,a.frame),
En(t,e,n,e.clear,r,On),e.before&&En(t,e,n,e.solid,r,xf),a}function pe(t,e,n){Object.entries(n).forEach(([o,r],s)=>{t.activeTexture(t.TEXTURE0+s),t.bindTexture(t.
TEXTURE_2D,r),B(t,e,{[o]:q(s)})})}function ve(t,e){let{gl:n}=t;n.bindFramebuffer(n.FRAMEBUFFER,e.frame),n.viewport(0,0,e.width,e.height),n.disable(n.DEPTH_TEST),
n.bindVertexArray(t.whole),n.drawArrays(n.TRIANGLES,0,3)}function pf(t,e,n,o,r,s,i){let{gl:c}=t,a=i.coarse?2:1,f=Ct(t,i.coarse?"quick":"fine"),l=Mt(t,`${i.own||
""}crevices`,Math.ceil(r/a),Math.ceil(s/a),!1),u=i.over*a;pe(c,f,{colours:o.colour,depths:o.depth}),B(c,f,{scale:q(u),reach:e.thick,pixel:n.pixel*u}),B(c,f,{range:n.
range,plane:n.plane}),ve(t,l)}function vf(t,e,n,{solid:o,clear:r,picture:s},i){let{gl:c}=t,a=Ct(t,"compose"),f=r||o,l=i.shade&&t.targets.get(`${i.own||""}crevic\
es`)||o;pe(c,a,{colours:o.colour,depths:o.depth,crevices:l.colour,clearColours:f.colour,clearDepths:f.depth});let[u,d]=i.coarse?[1,2]:[2,1];B(c,a,{scale:q(i.over),
shaded:i.shade}),B(c,a,{spread:q(u),coarseness:q(d)}),B(c,a,{layered:r!==null,clearShare:df}),B(c,a,{step:.3*e.thick,ink:e.ink,range:n.range,plane:n.plane}),ve(
t,s)}function Mf({gl:t,canvas:e},[n,o,r,s],i){t.bindFramebuffer(t.READ_FRAMEBUFFER,i.frame),t.bindFramebuffer(t.DRAW_FRAMEBUFFER,null);let[c,a]=[e.height-o-s,e.
height-o],l=i.width===r&&i.height===s?t.NEAREST:t.LINEAR;t.blitFramebuffer(0,0,i.width,i.height,n,c,n+r,a,t.COLOR_BUFFER_BIT,l)}function cs(t){let e=n=>()=>new Promise(o=>n.push(o));return{entries:()=>[...t.all.steps,...t.all.wrong].map(({key:n})=>n),shown:()=>({key:t.entry.key,at:t.at,drawn:t.
pictures.map(({state:n})=>kf(t,n))}),go:n=>It(t,n),idle:()=>Ef(t),boxes:()=>t.boxes,fine:()=>t.fine,camera:(n=0)=>t.cameras[n],measured:()=>t.measured.points.length===
2?je(t.measured.points):null,timing:()=>({first:t.firstTook,slow:t.slow,maker:t.store.maker.kind}),moving:()=>t.moving&&t.motion<1?Array.from(t.moving.rope.axis):
null,drawn:e(t.waiting),still:e(t.resting),sections:(n,o,r)=>Af(t,n,o,r)}}var kf=(t,e)=>C(t.store,e,!1)!==null;function Ef(t){let{making:e,queue:n}=t.store;return[
"smoothing","done"].includes(t.phase.name)&&!e&&n.length===0}async function Af({data:t},e,n,o){let r=t.states[e];return Pt(await Qt(r,r.text),n,o,t.law)}var as=(t,e)=>Math.hypot(e[0]-t[0],e[1]-t[1])>7;function fs(t,e,n){let[o,r]=[t,e].map(c=>[c[0]-n[0],c[1]-n[1]]),s=o[0]*r[1]-o[1]*r[0],i=Math.atan2(s,o[0]*r[0]+o[1]*
r[1]);return{factor:Math.hypot(r[0],r[1])/Math.max(Math.hypot(o[0],o[1]),1),turn:Math.abs(i)<.5?i:0,shift:[(e[0]-t[0])/2,(e[1]-t[1])/2],middle:[(t[0]+n[0])/2,(t[1]+
n[1])/2]}}function ls(t,e){let[n,o]=[e[0]-t[0],e[1]-t[1]];return Math.abs(n)<=60||Math.abs(n)<=2*Math.abs(o)?0:n<0?1:-1}var us=t=>Math.exp(-Math.min(Math.max(t,
-200),200)*.0022);var ds={touch:22,pen:10,mouse:3};function ws(t){let{canvas:e}=t;e.addEventListener("pointerdown",n=>Of(t,n)),e.addEventListener("pointermove",n=>Sf(t,n)),e.addEventListener(
"pointerup",n=>ms(t,n)),e.addEventListener("pointercancel",n=>ms(t,n)),e.addEventListener("wheel",n=>Rf(t,n),{passive:!1}),e.addEventListener("dblclick",()=>bt(
t)),e.addEventListener("contextmenu",n=>n.preventDefault()),document.addEventListener("keydown",n=>Lf(t,n)),_f(t,g("words")),new ResizeObserver(()=>{ft(t),F(t)}).
observe(g("picture"))}function Sn({canvas:t},e){let n=t.getBoundingClientRect();return[e.clientX-n.left,e.clientY-n.top]}function Fn(t,[e,n]){let o=([i,c,a,f])=>e>=
i&&n>=c&&e<i+a&&n<c+f,r=t.boxes.findIndex(o),s=Math.max(r,0);return{i:s,x:e-t.boxes[s][0],y:n-t.boxes[s][1]}}function Of(t,e){t.canvas.setPointerCapture(e.pointerId);
let n=Sn(t,e);t.pointers.set(e.pointerId,{spot:n,start:n,button:e.button,slipped:!1}),t.pinched=t.pointers.size>1}function Sf(t,e){let n=t.pointers.get(e.pointerId);
if(!n)return;let o=Sn(t,e),[r,s]=[o[0]-n.spot[0],o[1]-n.spot[1]];as(n.start,o)&&(n.slipped=!0),n.slipped&&(t.pointers.size>1?Ff(t,n,o):n.button!==0||e.shiftKey?
yt(t,i=>ee(i,r,s)):yt(t,i=>Le(i,r,s)),n.spot=o)}function Ff(t,e,n){let{spot:o}=[...t.pointers.values()].find(m=>m!==e)||e,{factor:r,turn:s,shift:i,middle:c}=fs(
e.spot,n,o),{i:a,x:f,y:l}=Fn(t,c),[,,u,d]=t.boxes[a];yt(t,m=>Xn(m,{factor:r,turn:s,shift:i},[f-u/2,l-d/2]))}function ms(t,e){let n=t.pointers.get(e.pointerId);t.
pointers.delete(e.pointerId),n&&!n.slipped&&!t.pinched&&e.type==="pointerup"&&Tf(t,n.spot,e),F(t)}function Tf(t,e,{pointerType:n}){if(t.tab!=="measure"||t.motion<
1||t.phase.name==="lost")return;let{i:o,x:r,y:s}=Fn(t,e),i=t.pictures[o].views?Do(t,o,r,s,ds[n]||ds.mouse):null;i?Uo(t,i):Q(t,"No rope there.",2500)}function Rf(t,e){
e.preventDefault();let{i:n,x:o,y:r}=Fn(t,Sn(t,e)),[,,s,i]=t.boxes[n];yt(t,c=>Bt(c,us(e.deltaY),[o-s/2,r-i/2]))}var If={ArrowLeft:[-40,0],ArrowRight:[40,0],ArrowUp:[
0,-40],ArrowDown:[0,40]};function Lf(t,e){if(e.ctrlKey||e.metaKey||(e.key==="Escape"&&Pf(t),t.practice.on))return;let n=If[e.key];if(n&&e.shiftKey){e.preventDefault(),
yt(t,s=>e.altKey?ee(s,...n):Le(s,...n));return}let o=e.key in hs;if(e.altKey||gs(e).closest(`input, select, textarea${o?"":", [role=tab]"}`))return;let r=o?Nf(t,
e,hs[e.key]):Cf[e.key];r&&(r(t),e.preventDefault())}var gs=t=>t.target,Cf={ArrowLeft:t=>L(t,t.at-1),ArrowRight:t=>L(t,t.at+1),"+":t=>Ft(t,1.35),"=":t=>Ft(t,1.35),
"-":t=>Ft(t,1/1.35),0:bt},hs={PageUp:-1,PageDown:1};function Nf(t,e,n){if(gs(e).closest("[role=tabpanel]"))return null;if(t.tab==="words")return()=>L(t,t.at+n);
let o=g(t.tab);return()=>o.scrollBy({top:.9*n*o.clientHeight})}function Pf(t){t.practice.on?V(t,!1):t.bench?et(t,!1):t.entry.kind==="wrong"&&sn(t)}function _f(t,e){
let n=null;e.addEventListener("touchstart",o=>{n=o.touches.length===1?[o.touches[0].clientX,o.touches[0].clientY]:null},{passive:!0}),e.addEventListener("touche\
nd",o=>{if(!n)return;let{clientX:r,clientY:s}=o.changedTouches[0],i=ls(n,[r,s]);n=null,i!==0&&L(t,t.at+i)},{passive:!0})}var Tn=.05;function $f(t){let{before:e,after:n,...o}=t;return e!==void 0&&n!==void 0?{...o,take_up:e-n}:o}function Bf({planned:t,least:e,most:n},o){let r=o-t,s=r>=
(e??-1/0)-Tn&&r<=(n??1/0)+Tn;return{off:r,within:s}}function Df(t,e,n){let o=a=>String(a).padStart(2,"0"),r=`${n.getFullYear()}-${o(n.getMonth()+1)}-${o(n.getDate())}`,
s=Object.entries(t).map(([a,f])=>`${a} = "${Number(f.toFixed(2))} mm"`),i="# Measured at the bench. Hold it against the plan: fidpath compare JOB.toml measured.\
toml",c=`# Job: ${e.replace(/[^\P{C}\t]/gu," ")}`;return[i,c,"schema = 1","","[measured]",`date = ${r}`,...s,""].join(`
`)}function Me(t){try{return JSON.parse(Z(Vt("measured",t.data))||"{}")}catch{return{}}}function bs(t){let e=Me(t),{asked:n}=t.data.measuring,o=n.map(({name:r})=>[
r,Mo(e[r]||"",t.data.unit)]);return Object.fromEntries(o.filter(([,r])=>!Number.isNaN(r)))}function Rn(t){let e=Me(t),n=t.data.measuring.asked.map(({name:o,words:r})=>{
let s=`typed-${o}`,i=w("p",{id:`${s}-said`,class:"small",role:"status"}),c=w("input",{id:s,type:"text",inputmode:"decimal",autocomplete:"off","aria-describedby":i.
id});c.value=e[o]||"",c.addEventListener("input",()=>{j(Vt("measured",t.data),JSON.stringify({...Me(t),[o]:c.value})),xs(t)});let a=w("label",{for:s,text:`${r},\
 ${t.data.unit}`});return w("div",{class:"typed"},w("div",{class:"row"},a,c),i)});g("typed").replaceChildren(...n),xs(t)}function xs(t){let{asked:e,figures:n}=t.
data.measuring,o=bs(t),r=Me(t),s=$f(o);for(let{name:i}of e){let c=n.find(u=>u.name===(i==="after"?"take_up":i)),a=(r[i]||"").trim()!==""&&o[i]===void 0;R(`typed\
-${i}`).setAttribute("aria-invalid",String(a));let f=g(`typed-${i}-said`),l=c&&s[c.name];f.textContent=a?`That isn't a length: write a number, in ${t.data.unit}\
.`:"",f.className=a?"small off":"small",!a&&c&&l!==void 0&&Uf(t,f,c,l)}g("typed-save").hidden=g("typed-clear").hidden=Object.keys(o).length===0,g("typed-file").
hidden=!0}function Uf(t,e,n,o){let{off:r,within:s}=Bf(n,o),i=l=>ie(Math.abs(l),t.data.unit),c=Math.abs(r)<=Tn?"As planned":`${i(r)} ${r>0?"more":"less"} than pl\
anned`,a=[n.least===null?"":`${i(n.least)} less`,n.most===null?"":`${i(n.most)} more`].filter(Boolean),f=s?"that is within what is allowed":"that is more than i\
s allowed; fidpath compare says what follows";e.textContent=`${n.label}: ${i(o)}. ${c} (${i(n.planned)}): ${f}. Allowed: up to ${a.join(" or ")} (${n.why}).`,e.
className=s?"small within":"small off"}function zf(t){let e=Df(bs(t),t.data.name,new Date),n=w("a",{href:URL.createObjectURL(new Blob([e],{type:"application/tom\
l"}))});n.download="measured.toml",n.click(),setTimeout(()=>URL.revokeObjectURL(n.href),6e4);let o=g("typed-file");o.textContent=e,o.hidden=!1}function ys(t){g(
"typed-save").addEventListener("click",()=>zf(t)),g("typed-clear").addEventListener("click",()=>{j(Vt("measured",t.data),"{}"),Rn(t),g("typed").querySelector("i\
nput")?.focus()})}var Hf=1;function ps(t){let e;try{e=JSON.parse(t)}catch(n){throw new Error(`the page's data can't be read (${at(n)})`)}if(e===null||e.page!==Hf)throw new Error(
"these are no data of a splice for this page");for(let n of["name","steps","wrong","states","tables","practice","measuring","law","palette"])if(e[n]===void 0)throw new Error(
`the page's data lack their ${n}`);return e}function Wf(){let t=g("data"),{length:e,crc:n}=t.dataset,o=t.textContent;if(o.length!==Number(e))throw new Error(`th\
is page is cut short: ${o.length} of ${e} characters of its data are here`);if(Jt(o)!==Number(n))throw new Error("this page was damaged on its way: its data don\
't match their check sum");return o}function Gf(t,e){let n=uo(t,c=>Br(i,c),c=>Q(i,c));ot(n,t.aim,!1,!0,t.home.only);let o=De(e,3),r=An(e);n.painter=r,ns(r);let s=fn(
t),i={data:t,canvas:e,painter:r,store:n,choices:Kr(),pointers:new Map,pinched:!1,all:s,entries:s.steps,entry:s.aim,at:-1,leftAt:0,view:0,into:null,tab:"words",bench:!1,
cameras:[],pictures:[],boxes:[],measured:{points:[]},practice:{on:!1,at:0,tries:0,first:0,done:!1},labels:g("labels"),over:g("over"),under:g("under"),note:g("no\
te"),corner:g("corner"),covers:[g("corner"),g("sides"),g("motion")],strip:0,size:o,phase:Nr,written:[],fine:0,slow:!1,firstTook:void 0,rest:void 0,saying:void 0,
waiting:[],resting:[],awake:null,waking:!1,motion:1,moving:null,reading:he,aloud:void 0,spoken:null,fragment:void 0,returning:!1,keptAt:0,steer:{slider:R("slide\
r"),place:g("place"),before:R("before"),after:R("after")}};return i}function vs(t,e,n){t.data=e,mo(t.store,e,t.pictures.map(({state:o})=>o)),t.all=fn(e),dt(t,{is:"\
renewed"}),document.title=`${e.name}: ${e.title}`,g("job").textContent=e.name,g("method").textContent=e.title,g("practise").hidden=e.practice.length===0,Sr(t),Rn(
t),t.measured.points=[],It(t,n)}function It(t,e){let n=t.all.wrong.some(o=>o.key===e);t.entries=n?t.all.wrong:t.all.steps,L(t,Math.max(t.entries.findIndex(o=>o.
key===e),0))}function jf(t,e){let n=ps(e),{key:o}=t.entry,r=t.cameras.map(s=>s&&s.moved&&{...s,state:s.picture.state});t.practice.on&&V(t,!1),vs(t,n,o),r.forEach(
(s,i)=>{let c=t.pictures[i];s&&c&&c.state===s.state&&(t.cameras[i]={...s,picture:c,moved:!0})}),ft(t),F(t)}function Vf(t){t.canvas.addEventListener("webglcontex\
tlost",e=>{e.preventDefault(),dt(t,{is:"lost"}),Q(t,un(t))}),t.canvas.addEventListener("webglcontextrestored",()=>{try{t.painter=An(t.canvas)}catch(e){Q(t,`The \
picture can't come back: ${at(e)}. Load the page again.`);return}t.store.painter=t.painter,t.store.kept.clear(),t.store.former.clear(),t.store.bodies.clear(),t.
moving=null,dt(t,{is:"restored"}),ln(t)})}function Yf(t){let e=`The 3D model can't be shown here: ${t}. Below are the pictures, words and tables.`;g("plain").prepend(
w("p",{class:"caution",role:"alert",text:e})),g("plain").classList.add("shown");for(let n of["live","bench","practise"])g(n).remove();window.fidpathLoad=()=>{throw new Error(
`there is no model to put them in: ${t}`)}}function Xf(t){for(let e of["live","plain"])g(e).remove();document.body.append(w("p",{class:"broken",role:"alert",text:`${t}\
. Ask for the file again.`}))}function Ms(){if(getComputedStyle(document.querySelector(".partial")).display!=="none")return;xr(),document.documentElement.classList.
add("scripted");let t;try{t=ps(Wf())}catch(e){Xf(at(e));return}g("live").hidden=!1;try{if(!("DecompressionStream"in window))throw new Error("this browser is too\
 old to unpack it");Kf(t)}catch(e){Yf(at(e))}}function Kf(t){let e=Gf(t,g("canvas"));jo(e),gr(e),ys(e),Er(),ar(e),vr(e),br(e),ws(e),Vf(e),vs(e,t,be(location.hash).
at),tt(e,"words"),Lr(e),window.fidpathLoad=n=>jf(e,n),window.fidpathPage=cs(e)}typeof document>"u"?Yn(self):document.addEventListener("DOMContentLoaded",Ms);})();
